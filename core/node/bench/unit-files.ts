import { mkdtemp, readFile, rm, stat } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { AppError } from '../../base/errors';
import { archiveEnding } from '../../contract/archive-file';
import type { BookVerbs } from '../../contract/book-verbs';
import type { UnitRecord } from '../../contract/unit-record';
import type { Book } from '../book/book';
import { exportUnit } from '../book/export-unit';
import { importUnit } from '../book/import-unit';
import { writeLeftovers, type Leftovers } from '../book/write-leftovers';
import { systemWords } from '../system-words';
import type { PlacedArchive } from './archives';
import type { CallRun } from './calls';
import type { LastSheet } from './last-sheet';

/** A file goes to the page in one piece. */
const mostFileBytes = 2 ** 30;

/** The record sheet as a file, measured (unless it was just now) and drawn by an engine. @rule BE19, BE23 */
export async function unitSheet(
  book: Book,
  { unit, form, paper, share }: BookVerbs['unitSheet']['asks'],
  { program, lastSheet }: { readonly program: string; readonly lastSheet: LastSheet },
  run: CallRun,
): Promise<BookVerbs['unitSheet']['answers']> {
  const record = await book.read(unit);
  const bytes = await run.engine('sheet', {
    record,
    result: await lastSheet.measured(book, record, run),
    form: form === 'html' ? { kind: 'html' } : { kind: 'pdf', paper: paper === 'Letter' ? 'letter' : 'A4' },
    isShared: share,
    program,
  });
  return { name: `${unit}.${form}`, mediaType: form === 'pdf' ? 'application/pdf' : 'text/html', bytes };
}

/** Said without the folder's place: the page is told none. */
function noFileMade(message: string): AppError {
  return new AppError('usage', 'FILE_NOT_WRITTEN', message, 'Make room in the temporary folder, and try again.');
}

/**
 * A file made in a private folder, which is then removed, whatever happened.
 *
 * @param make  given what removes the folder too, for an engine that may still be writing there when the call is over
 */
async function madeFile(make: (file: string, tidy: () => Promise<void>) => Promise<void>): Promise<Uint8Array> {
  const folder = await mkdtemp(path.join(tmpdir(), 'evendial-export-')).catch((error: unknown) => {
    throw noFileMade(`No file can be made: ${systemWords(error)}.`);
  });
  // Tried again where another program, or an engine that is just ending, holds a file of it.
  const tidy = (): Promise<void> => rm(folder, { recursive: true, force: true, maxRetries: 5 });
  try {
    const file = path.join(folder, 'unit');
    await make(file, tidy).catch((error: unknown) => {
      const isOfDisk = error instanceof AppError && error.code === 'FILE_NOT_WRITTEN';
      throw isOfDisk ? noFileMade(error.message.replaceAll(file, 'The file')) : error;
    });
    if ((await stat(file)).size > mostFileBytes) {
      const remedy = 'Export it on the command line, which writes straight to the disk.';
      throw new AppError('usage', 'EXPORT_TOO_LARGE', 'The unit is too large to be handed over here.', remedy);
    }
    return new Uint8Array(await readFile(file));
  } finally {
    await tidy();
  }
}

/** A unit in one file, with the bytes that the command line writes. @rule BE19 */
export async function unitArchive(
  book: Book,
  { unit, share }: BookVerbs['unitExport']['asks'],
  { engine, signal }: CallRun,
): Promise<BookVerbs['unitExport']['answers']> {
  let leftOut: readonly string[] = [];
  const bytes = await madeFile(async (file, tidy) => {
    if (share) ({ leftOut } = await engine('share', { book: book.folder, unit, file }, tidy));
    else await exportUnit(book, unit, file, signal);
  });
  const name = `${unit}${share ? '-shared' : ''}${archiveEnding}`;
  return { name, mediaType: 'application/x-evendial', bytes, leftOut };
}

/** What is left of a unit that cannot be read, in one file. @rule BE16 */
export async function unitLeftovers(
  book: Book,
  { unit }: BookVerbs['unitLeftovers']['asks'],
  { signal }: CallRun,
): Promise<BookVerbs['unitLeftovers']['answers']> {
  let left: Leftovers = { photos: 0, damagedPhotos: 0, unreadable: 0 };
  const bytes = await madeFile(async (file) => {
    left = await writeLeftovers(book, unit, file, signal);
  });
  return { name: `${unit}-left.zip`, mediaType: 'application/zip', bytes, ...left };
}

/** Takes a unit into the book. @rule BE19 */
export async function importArchive(
  book: Book,
  { path: place, name }: PlacedArchive,
  { signal, onProgress }: CallRun,
): Promise<UnitRecord> {
  const { unit } = await importUnit(book, place, name, {
    dryRun: false,
    signal,
    onProgress: (photosDone, photosInAll) => onProgress({ file: name, step: 'done', photosDone, photosInAll }),
  });
  return book.read(unit.id);
}
