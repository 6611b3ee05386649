import path from 'node:path';
import { z } from 'zod';
import { AppError } from '../../base/errors';
import { bookError } from '../../book/book-errors';
import { searchText } from '../../book/search-text';
import type { UnitRecord } from '../../contract/unit-record';
import { mapLimited } from './map-limited';
import { codeOf, type FilePort } from './file-port';
import { readNewest, recordOf, revisionsOf } from './revision-files';
import { writeUnfinished, dropFile } from './whole-file';

const entry = z.object({
  id: z.string(),
  /** Of the folder of revisions, when the entry was made. */
  stamp: z.string(),
  name: z.string(),
  revision: z.number(),
  savedAt: z.string(),
  windows: z.array(z.string()),
  trials: z.number(),
  photos: z.number(),
  chosen: z.string().nullable(),
  /** All that a person wrote, for the search. */
  text: z.string(),
});
const index = z.object({ format: z.literal('evendial-book'), version: z.literal(1), units: z.array(entry) });

export type IndexEntry = z.infer<typeof entry>;
/** A unit that cannot be read; the others of its book can. */
export interface UnreadableUnit {
  readonly id: string;
  readonly error: AppError;
}
export type ListedUnit = IndexEntry | UnreadableUnit;

export const indexOf = (book: string): string => path.join(book, 'book.json');
export const unitsOf = (book: string): string => path.join(book, 'units');

/** As many units are read at a time. */
const readersAtOnce = 32;

function entryOf(record: UnitRecord, stamp: string): IndexEntry {
  return {
    id: record.id,
    stamp,
    name: record.name,
    revision: record.revision,
    savedAt: record.savedAt,
    windows: record.windows.map(({ name }) => name),
    trials: record.trials.length,
    photos: record.photos.length,
    chosen: record.chosen?.trial ?? null,
    text: searchText(record),
  };
}

/**
 * The index as it was last written; empty when it is missing or damaged, since it can be made again.
 *
 * @throws AppError BOOK_TOO_NEW
 * @rule BK18
 */
async function readIndex(port: FilePort, book: string): Promise<ReadonlyMap<string, IndexEntry>> {
  let given: unknown;
  try {
    given = JSON.parse(new TextDecoder().decode(await port.readFile(indexOf(book))));
  } catch (error) {
    if (error instanceof SyntaxError || codeOf(error) === 'ENOENT') return new Map();
    throw error;
  }
  const version = typeof given === 'object' && given !== null && 'version' in given ? given.version : undefined;
  if (typeof version === 'number' && version > 1) {
    const message = `${indexOf(book)} is a book of version ${version}; this program reads version 1`;
    throw bookError('BOOK_TOO_NEW', message, 'Use a newer version of this program. The book was not touched.');
  }
  const read = index.safeParse(given);
  return new Map(read.success ? read.data.units.map((unit) => [unit.id, unit]) : []);
}

/** A reader may look into a book that it cannot write to, or whose disk is full: the index is only a short cut. */
const indexNotNeeded = ['EACCES', 'EPERM', 'EROFS', 'ENOSPC'];

async function writeIndex(port: FilePort, book: string, units: readonly IndexEntry[]): Promise<void> {
  const text = JSON.stringify({ format: 'evendial-book', version: 1, units });
  let unfinished: string | null = null;
  try {
    unfinished = await writeUnfinished(port, indexOf(book), [new TextEncoder().encode(`${text}\n`)]);
    await port.rename(unfinished, indexOf(book));
    unfinished = null;
  } catch (error) {
    if (!indexNotNeeded.includes(codeOf(error))) throw error;
    if (unfinished !== null) await dropFile(port, unfinished);
  }
}

/** Ids of the units of a book: folders with revisions; what is under way has a dot before its name. */
export async function unitIds(port: FilePort, book: string): Promise<string[]> {
  if ((await port.facts(unitsOf(book)))?.kind !== 'folder') return [];
  return (await port.list(unitsOf(book))).filter((name) => /^[a-z0-9]/.test(name));
}

async function listedUnit(
  port: FilePort,
  book: string,
  id: string,
  known: IndexEntry | undefined,
): Promise<ListedUnit | null> {
  const folder = path.join(unitsOf(book), id);
  const facts = await port.facts(revisionsOf(folder));
  // The stamp is taken before the record is read: a revision that comes in between makes the entry old, never wrong.
  const stamp = facts?.kind === 'folder' ? facts.stamp : '';
  if (stamp === '' && (await port.facts(recordOf(folder))) === null) return null;
  if (stamp !== '' && known?.stamp === stamp) return known;
  try {
    return entryOf(await readNewest(port, folder), stamp);
  } catch (error) {
    if (error instanceof AppError) return { id, error };
    throw error;
  }
}

/**
 * All units of a book, the last saved first. Entries of the index whose unit has changed since are made again, and the
 * index is written anew when any was.
 *
 * @throws AppError BOOK_TOO_NEW
 * @rule BK18
 */
export async function listUnits(port: FilePort, book: string): Promise<ListedUnit[]> {
  const known = await readIndex(port, book);
  const ids = await unitIds(port, book);
  const listed = await mapLimited(ids, readersAtOnce, (id) => listedUnit(port, book, id, known.get(id)));
  const found = listed.filter((unit) => unit !== null);
  const entries = found.filter((unit): unit is IndexEntry => !('error' in unit));
  const isOld = entries.length !== known.size || entries.some((unit) => known.get(unit.id) !== unit);
  if (isOld && ids.length > 0) await writeIndex(port, book, entries);
  const when = (unit: ListedUnit): string => ('error' in unit ? '' : unit.savedAt);
  return found.sort((a, b) => (when(a) < when(b) ? 1 : when(a) > when(b) ? -1 : a.id < b.id ? -1 : 1));
}
