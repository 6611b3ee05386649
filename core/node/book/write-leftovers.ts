import path from 'node:path';
import { bookError } from '../../book/book-errors';
import { safeFileName } from '../map-files/map-names';
import type { Book } from './book';
import { withBookErrors } from './book-failures';
import { codeOf, type FilePort } from './file-port';
import { checksumOf, originalOfName, photosOf } from './originals';
import { namesIn } from './revision-files';
import { onePart, writeZip, type ZipEntry } from './write-zip';

/** What is left of a unit that cannot be read any more. */
export interface Leftovers {
  /** Originals that have the checksum of their name. */
  readonly photos: number;
  /** Originals that have not: they go along, apart from the others. */
  readonly damagedPhotos: number;
  /** Files that the disk does not give any more. */
  readonly unreadable: number;
}

/** Where files of records lie in a unit's folder. */
const recordFolders = ['', 'revisions', 'damaged'];

/** A photo in a record's text, whole or torn: its checksum, and what its file was called. */
const namedPhoto = /"sha256":\s*"([0-9a-f]{64})",\s*"ending":\s*"[a-z0-9]{1,8}",\s*"name":\s*"([^"\\\n]*)"/g;

/** What photos were called, by checksum, as far as the texts of records still tell; of several the last. */
function photoNamesIn(texts: readonly string[]): ReadonlyMap<string, string> {
  return new Map(
    texts.flatMap((text) => [...text.matchAll(namedPhoto)].map(([, sha256, name]) => [sha256, name] as const)),
  );
}

/** What reads a file; null where the disk does not give it. */
async function given<T>(read: () => Promise<T>): Promise<T | null> {
  try {
    return await read();
  } catch (error) {
    if (/^E[A-Z]+$/.test(codeOf(error))) return null;
    throw error;
  }
}

interface Found {
  readonly entries: readonly ZipEntry[];
  readonly unreadable: number;
}

async function recordsIn(port: FilePort, folder: string): Promise<Found & { readonly texts: readonly string[] }> {
  const entries: ZipEntry[] = [];
  const texts: string[] = [];
  let unreadable = 0;
  for (const inside of recordFolders) {
    for (const name of await namesIn(port, path.join(folder, inside))) {
      const file = path.join(folder, inside, name);
      if (!/\.json(?:-\d+)?$/.test(name) || (await port.facts(file))?.kind !== 'file') continue;
      const bytes = await given(() => port.readFile(file));
      if (bytes === null) unreadable++;
      else {
        texts.push(new TextDecoder().decode(bytes));
        entries.push({ name: path.posix.join('records', inside, name), storedBytes: null, read: () => onePart(bytes) });
      }
    }
  }
  return { entries, texts, unreadable };
}

async function photosIn(
  port: FilePort,
  folder: string,
  names: ReadonlyMap<string, string>,
  signal: AbortSignal,
): Promise<Found & { readonly damaged: number }> {
  const entries: ZipEntry[] = [];
  let [damaged, unreadable] = [0, 0];
  for (const stored of await namesIn(port, photosOf(folder))) {
    const original = originalOfName(stored);
    if (!original) continue;
    signal.throwIfAborted();
    const file = path.join(photosOf(folder), stored);
    const sum = await given(() => checksumOf(port.readParts(file)));
    if (sum === null) {
      unreadable++;
      continue;
    }
    const isWhole = sum.sha256 === original.sha256;
    if (!isWhole) damaged++;
    const called = names.get(original.sha256);
    const shown =
      called === undefined ? original.sha256 : `${safeFileName(path.parse(called).name)}-${stored.slice(0, 8)}`;
    const name = `${isWhole ? 'photos' : 'damaged photos'}/${shown}.${original.ending}`;
    entries.push({ name, storedBytes: sum.bytes, read: () => port.readParts(file) });
  }
  return { entries, damaged, unreadable };
}

/**
 * Writes what is left of a unit as a zip: originals byte for byte, under what they were called as far as that can still be
 * told; those that are damaged, apart; and every file of records as it is. Changes nothing in the book.
 *
 * @throws AppError NOTHING_LEFT, FILE_NOT_WRITTEN, BOOK_NOT_USABLE
 * @rule BK30
 */
export function writeLeftovers(book: Book, id: string, file: string, signal: AbortSignal): Promise<Leftovers> {
  return withBookErrors(book.folder, async () => {
    const folder = book.unitFolder(id);
    const records = await recordsIn(book.port, folder);
    const photos = await photosIn(book.port, folder, photoNamesIn(records.texts), signal);
    const entries = [...photos.entries, ...records.entries];
    const unreadable = photos.unreadable + records.unreadable;
    if (entries.length === 0) {
      const remedy = 'Put the unit’s folder from a copy of the book in its place.';
      throw bookError('NOTHING_LEFT', `no photo and no record of ${id} can be read`, remedy);
    }
    await writeZip(file, entries, book.now(), signal);
    return { photos: photos.entries.length - photos.damaged, damagedPhotos: photos.damaged, unreadable };
  });
}
