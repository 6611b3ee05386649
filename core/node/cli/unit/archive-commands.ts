import { lstat } from 'node:fs/promises';
import path from 'node:path';
import { exportUnit } from '../../book/export-unit';
import { importUnit } from '../../book/import-unit';
import { shareUnit } from '../../book/share-unit';
import { createDecoder } from '../../decode-process';
import { printable } from '../../../display/figure-text';
import { systemWords } from '../../system-words';
import { usageError } from '../arguments';
import { documentText, type UnitCall, type UnitCommand } from './unit-command';
import { countOf } from './unit-text';

/** Where the archive is to go, as it was written: after the unit, or with --out. */
function fileOf({ given, words }: UnitCall): string {
  const [, word] = words;
  const out = given.values.get('out');
  if (word !== undefined && out !== undefined) {
    throw usageError(`a file and --out ${out} together`, 'Name the file once.');
  }
  const file = word ?? out;
  if (file) return file;
  throw usageError('the unit has no file to go to', 'Give it with --out FILE.evendial.');
}

/** An archive may be the only copy of what a unit was: it is never written over. */
async function assertNew(file: string, called: string): Promise<void> {
  const facts = await lstat(file).catch((error: NodeJS.ErrnoException) => {
    if (error.code === 'ENOENT') return null;
    throw usageError(`${called} cannot be written: ${systemWords(error)}`, 'Choose another place.', 'FILE_NOT_WRITTEN');
  });
  if (facts === null) return;
  const remedy = 'Give another name, or move that one away first. Nothing was written.';
  throw usageError(`${called} is there already`, remedy, 'FILE_EXISTS');
}

async function runShare({ book, isJson, shell }: UnitCall, id: string, file: string): Promise<number> {
  const decoder = createDecoder({});
  const { unit, photos, leftOut } = await shareUnit(book, id, path.resolve(shell.folder, file), {
    decoder,
    signal: shell.signal,
    onProgress: (done, inAll) => shell.progress(`${done} of ${inAll} photos made again`),
  }).finally(() => {
    shell.progress('');
    return decoder.close();
  });
  const document = { format: 'evendial-export', version: 1, unit, file, revisions: 1, photos, shared: true, leftOut };
  const lines = [
    `${printable(file)} holds the record as it is now, and ${countOf(photos, 'photo')} made again.`,
    '  Left out: owner, serial number, earlier revisions, names of files, and all that photos say of',
    '  place, person, date and camera number. Notes go along as they are: read them before you give it away.',
    ...leftOut.map((name) => `  Not made again, and left out: ${printable(name)}`),
  ];
  await shell.print(isJson ? documentText(document) : `${lines.join('\n')}\n`);
  return 0;
}

async function runExport(call: UnitCall): Promise<number> {
  const { book, given, words, isJson, shell } = call;
  const file = fileOf(call);
  const unit = await book.idOf(words[0]);
  await assertNew(path.resolve(shell.folder, file), file);
  if (given.flags.has('share')) return runShare(call, unit, file);
  const { revisions, photos } = await exportUnit(book, unit, path.resolve(shell.folder, file), shell.signal);
  const document = { format: 'evendial-export', version: 1, unit, file, revisions, photos, shared: false };
  const text =
    `${printable(file)} holds ${countOf(photos, 'original')}, byte for byte, and ${countOf(revisions, 'revision')}.\n` +
    '  Photos may tell where, when and with which camera they were taken; --share leaves that out.\n';
  await shell.print(isJson ? documentText(document) : text);
  return 0;
}

async function runImport({ book, given, words, isJson, shell }: UnitCall): Promise<number> {
  const [file] = words;
  const dryRun = given.flags.has('dry-run');
  const { unit, revisions, photos, shared, isWritten, isThere } = await importUnit(
    book,
    path.resolve(shell.folder, file),
    file,
    {
      dryRun,
      signal: shell.signal,
      onProgress: (done, inAll) => shell.progress(`${done} of ${inAll} files`),
    },
  ).finally(() => shell.progress(''));
  const { id, name } = unit;
  const document = { format: 'evendial-import', version: 1, unit: id, name, revisions, photos, shared, dryRun };
  const what = `${printable(JSON.stringify(name))}, ${countOf(revisions, 'revision')} and ${countOf(photos, 'photo')}`;
  const done = isThere
    ? 'is in the book already, all of it'
    : isWritten
      ? 'is in the book'
      : 'is whole and can be imported';
  const text = `${what}: ${done}.\n  unit ${id}, revision ${unit.revision}\n`;
  await shell.print(isJson ? documentText({ ...document, written: isWritten, alreadyThere: isThere }) : text);
  return 0;
}

/** @rule BK24 */
export const archiveCommands: Readonly<Record<string, UnitCommand>> = {
  export: {
    usage: 'export UNIT --out FILE.evendial [--share]',
    values: ['out'],
    flags: ['share'],
    words: [1, 2],
    run: runExport,
  },
  import: { usage: 'import FILE.evendial [--dry-run]', flags: ['dry-run'], words: [1, 1], run: runImport },
};
