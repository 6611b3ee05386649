import path from 'node:path';
import { bookError } from '../../book/book-errors';
import type { UnitRecord } from '../../contract/unit-record';
import { unitsOf } from './book-index';
import { codeOf, type FilePort } from './file-port';
import { photosOf } from './originals';
import { revisionsOf, writeRevision } from './revision-files';
import { unfinishedName } from './whole-file';

/** Makes a folder, and those that it lies in, unless they are there; each flushed into the one above. */
export async function makeFolders(port: FilePort, folder: string): Promise<void> {
  if ((await port.facts(folder)) !== null) return;
  const above = path.dirname(folder);
  if (above !== folder) await makeFolders(port, above);
  try {
    await port.makeFolder(folder);
  } catch (error) {
    // Another process was quicker.
    if (codeOf(error) !== 'EEXIST') throw error;
  }
  await port.fsyncFolder(above);
}

/** Makes a book where there is none. */
export async function makeBook(port: FilePort, book: string): Promise<void> {
  await makeFolders(port, unitsOf(book));
}

/** An unfinished unit's folder, hidden, with its inner folders. */
export async function makeUnfinishedUnit(port: FilePort, book: string, id: string): Promise<string> {
  const folder = unfinishedName(path.join(unitsOf(book), id));
  await port.makeFolder(folder);
  await port.makeFolder(revisionsOf(folder));
  await port.makeFolder(photosOf(folder));
  return folder;
}

/** Gives a whole, flushed unit its name in the book. @throws AppError UNIT_EXISTS */
export async function nameUnit(port: FilePort, book: string, unfinished: string, id: string): Promise<void> {
  for (const folder of [revisionsOf(unfinished), photosOf(unfinished), unfinished]) await port.fsyncFolder(folder);
  try {
    await port.rename(unfinished, path.join(unitsOf(book), id));
  } catch (error) {
    if (!['EEXIST', 'ENOTEMPTY', 'EPERM'].includes(codeOf(error))) throw error;
    throw bookError('UNIT_EXISTS', `the book has a unit ${id} already`, "'evendial unit list' shows it.");
  }
  await port.fsyncFolder(unitsOf(book));
}

/** Puts a new unit with its first revision into the book; a failure leaves nothing behind. @rule BK14 */
export async function placeUnit(port: FilePort, book: string, record: UnitRecord): Promise<void> {
  const folder = await makeUnfinishedUnit(port, book, record.id);
  try {
    await writeRevision(port, folder, record);
    await nameUnit(port, book, folder, record.id);
  } catch (error) {
    await port.removeFolder(folder);
    throw error;
  }
}
