import { createHash } from 'node:crypto';
import path from 'node:path';
import { AppError } from '../../base/errors';
import { bookError } from '../../book/book-errors';
import { systemWords } from '../system-words';
import { codeOf, type FilePort } from './file-port';
import { dropFile, nameExclusively, writeUnfinished } from './whole-file';

export interface KeptOriginal {
  readonly sha256: string;
  readonly ending: string;
  readonly bytes: number;
  /** false: the unit had it already. */
  readonly isNew: boolean;
}

export const photosOf = (folder: string): string => path.join(folder, 'photos');

const originalName = /^([0-9a-f]{64})\.([a-z0-9]{1,8})$/;

/** Checksum and ending in an original's file name, or null for any other file. */
export function originalOfName(name: string): { sha256: string; ending: string } | null {
  const found = originalName.exec(name);
  return found ? { sha256: found[1], ending: found[2] } : null;
}

function endingOf(file: string): string {
  const ending = path.extname(file).slice(1).toLowerCase();
  return /^[a-z0-9]{1,8}$/.test(ending) ? ending : 'bin';
}

/** Checksum and length of a file, read in parts. */
export async function checksumOf(parts: AsyncIterable<Uint8Array>): Promise<{ sha256: string; bytes: number }> {
  const hash = createHash('sha256');
  let bytes = 0;
  for await (const part of parts) {
    hash.update(part);
    bytes += part.length;
  }
  return { sha256: hash.digest('hex'), bytes };
}

/** The parts, and their checksum once all have gone through. */
function countedParts(parts: AsyncIterable<Uint8Array>): {
  parts: AsyncIterable<Uint8Array>;
  sum: () => { sha256: string; bytes: number };
} {
  const hash = createHash('sha256');
  let bytes = 0;
  async function* through(): AsyncGenerator<Uint8Array> {
    for await (const part of parts) {
      hash.update(part);
      bytes += part.length;
      yield part;
    }
  }
  return { parts: through(), sum: () => ({ sha256: hash.digest('hex'), bytes }) };
}

/** What is read from outside the book fails as a photo, not as the book. */
async function* readSource(port: FilePort, source: string, signal: AbortSignal): AsyncGenerator<Uint8Array> {
  const unreadable = (why: string): Error =>
    new AppError('photo', 'PHOTO_NOT_READ', `${source} cannot be read: ${why}`, 'Check its name and the folder.');
  try {
    const facts = await port.facts(source);
    if (facts?.kind === 'folder') throw unreadable('it is a folder');
    for await (const part of port.readParts(source)) {
      signal.throwIfAborted();
      yield part;
    }
  } catch (error) {
    throw /^E[A-Z]+$/.test(codeOf(error)) ? unreadable(systemWords(error)) : error;
  }
}

/** The name under which a unit has an original already, whatever its ending. */
async function keptName(port: FilePort, folder: string, sha256: string): Promise<string | undefined> {
  return (await port.list(photosOf(folder))).find((name) => originalOfName(name)?.sha256 === sha256);
}

/**
 * Copies a photo into a unit, byte for byte, named after its checksum; the same photo is kept once. It is flushed with
 * its folder before this resolves.
 *
 * @throws AppError PHOTO_NOT_READ; ORIGINAL_DAMAGED  the kept one has another length
 * @rule BK17
 */
export async function keepOriginal(
  port: FilePort,
  folder: string,
  source: string,
  signal: AbortSignal,
): Promise<KeptOriginal> {
  const { parts, sum } = countedParts(readSource(port, source, signal));
  const unfinished = await writeUnfinished(port, path.join(photosOf(folder), 'photo'), parts);
  try {
    const { sha256, bytes } = sum();
    const kept = await keptName(port, folder, sha256);
    const ending = kept === undefined ? endingOf(source) : (originalOfName(kept)?.ending ?? '');
    const place = path.join(photosOf(folder), `${sha256}.${ending}`);
    const isNew = kept === undefined && (await nameExclusively(port, unfinished, place));
    if (!isNew && (await port.facts(place))?.bytes !== bytes) {
      const remedy = 'Move the damaged file out of the folder and add the photo again.';
      throw bookError('ORIGINAL_DAMAGED', `${place} is damaged: its length has changed`, remedy);
    }
    await port.fsyncFolder(photosOf(folder));
    return { sha256, ending, bytes, isNew };
  } finally {
    await dropFile(port, unfinished);
  }
}
