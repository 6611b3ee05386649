import { open } from 'node:fs/promises';
import path from 'node:path';
import { addPhoto, namedItem } from '../../../book/edits';
import { encodings, lightKinds } from '../../../contract/light';
import { photoRoles, type PhotoRole, type UnitPhoto, type UnitRecord } from '../../../contract/unit-record';
import { formatUnsupported, photoMissing, photoUnreadable } from '../../decode/photo-errors';
import { detectPhotoFormat } from '../../decode/photo-format';
import { systemWords } from '../../system-words';
import { usageError } from '../arguments';
import { readChoice, readCorners, readExposure } from '../option-values';
import { printChanged, type UnitCall, type UnitCommand } from './unit-command';

const roleForm = `--role is one of ${photoRoles.filter((role) => role !== 'trial').join(', ')}, or trial:NAME.`;

/** `reference`, or `trial:LEDs 8 mm behind`. */
function readRole(text: string | undefined): { role: PhotoRole; trial?: string } {
  if (text === undefined) throw usageError('the photo has no role', roleForm);
  if (text.startsWith('trial:') && text.length > 6) return { role: 'trial', trial: text.slice(6) };
  const role = photoRoles.find((one) => one === text.trim().toLowerCase());
  if (role !== undefined && role !== 'trial') return { role };
  throw usageError(`--role is ${JSON.stringify(text)}`, roleForm, 'ROLE_INVALID');
}

/** Enough of a file to tell what it is. */
const beginning = 2 ** 18;

/** A photo that figures are to come from has to be one that can be read; beside these anything can be kept. */
async function assertPhoto(file: string, called: string): Promise<void> {
  let bytes: Uint8Array;
  try {
    const handle = await open(file, 'r');
    try {
      const { buffer, bytesRead } = await handle.read({ buffer: new Uint8Array(beginning) });
      bytes = buffer.subarray(0, bytesRead);
    } finally {
      await handle.close();
    }
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') throw photoMissing(called);
    throw photoUnreadable(called, systemWords(error));
  }
  const kind = detectPhotoFormat(bytes);
  if ('refused' in kind) throw formatUnsupported(called, kind.refused);
}

type StatedFields = Omit<UnitPhoto, 'sha256' | 'ending' | 'bytes' | 'name'>;

/** What is said of every photo of the call, as the unit stands now. */
function statedFields({ given }: UnitCall, unit: UnitRecord): StatedFields {
  const value = (option: string): string | undefined => given.values.get(option);
  const [light, encoding, exposure, only] = [value('light'), value('encoding'), value('exposure'), value('for')];
  const role = readRole(value('role'));
  if (only !== undefined && role.trial !== undefined)
    throw usageError('--for and a trial as role', 'Give one of them.');
  const trial = only ?? role.trial;
  if (trial !== undefined) namedItem('trial', trial, unit.trials);
  return {
    ...role,
    ...(trial === undefined ? {} : { trial }),
    ...(light === undefined ? {} : { light: readChoice('light', light, lightKinds) }),
    ...(encoding === undefined ? {} : { encoding: readChoice('encoding', encoding, encodings) }),
    ...(exposure === undefined ? {} : readExposure(exposure)),
    ...cornersOf(value('corners'), value('window'), unit),
  };
}

function cornersOf(text: string | undefined, called: string | undefined, unit: UnitRecord): Pick<UnitPhoto, 'corners'> {
  if (text === undefined) {
    if (called !== undefined) throw usageError('--window without --corners', 'Give the corners of this window too.');
    return {};
  }
  const corners = readCorners(text).map(({ column, row }): [number, number] => [column, row]);
  if (called === undefined && unit.windows.length !== 1)
    throw usageError('--corners of which window?', 'Name it with --window NAME.', 'WINDOW_UNKNOWN');
  const window = called === undefined ? unit.windows[0] : namedItem('window', called, unit.windows);
  return { corners: { [window.name]: corners } };
}

async function runAddPhoto(call: UnitCall): Promise<number> {
  const { book, words, shell } = call;
  const [called, ...files] = words;
  const id = await book.idOf(called);
  const { role } = statedFields(call, await book.read(id));
  const places = files.map((file) => path.resolve(shell.folder, file));
  if (role !== 'other') for (const [i, place] of places.entries()) await assertPhoto(place, files[i]);
  const kept: Pick<UnitPhoto, 'sha256' | 'ending' | 'bytes' | 'name'>[] = [];
  for (const [i, place] of places.entries()) {
    shell.progress(`${i} of ${files.length} photos kept`);
    const { sha256, ending, bytes } = await book.keepOriginal(id, place, shell.signal);
    kept.push({ sha256, ending, bytes, name: path.basename(place) });
  }
  shell.progress('');
  const unit = await book.edit(id, (one) => {
    const stated = statedFields(call, one);
    return kept.reduce((all, original) => addPhoto(all, { ...original, ...stated }), one);
  });
  const what = files.length === 1 ? 'One photo is' : `${files.length} photos are`;
  return printChanged(call, unit, `${what} kept byte for byte, as ${call.given.values.get('role')}.`);
}

/** @rule BK24 */
export const photoCommands: Readonly<Record<string, UnitCommand>> = {
  'add-photo': {
    usage: 'add-photo UNIT FILE... --role ROLE [--corners "x,y ..." --window NAME] [--light KIND] [--exposure E]',
    values: ['role', 'for', 'corners', 'window', 'light', 'encoding', 'exposure'],
    words: [2],
    run: runAddPhoto,
  },
};
