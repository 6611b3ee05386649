import { readdir } from 'node:fs/promises';
import path from 'node:path';
import { archiveEnding } from '../../contract/archive-file';
import type { Book } from '../book/book';
import { withBookErrors } from '../book/book-failures';
import { unitIds } from '../book/book-index';
import { importUnit } from '../book/import-unit';
import { makeBook } from '../book/new-folder';
import { dropFile, nameExclusively, writeUnfinished } from '../book/whole-file';

/** Stands in a book that has had the samples, or was begun without them: what is deleted then stays away. */
export const samplesGivenName = 'samples-given';

async function markGiven({ port, folder }: Book): Promise<void> {
  const place = path.join(folder, samplesGivenName);
  const mark = await writeUnfinished(port, place, [new TextEncoder().encode('The sample units were put here once.\n')]);
  try {
    await nameExclusively(port, mark, place);
  } finally {
    await dropFile(port, mark);
  }
}

/** The units that come with the program, the tuner last: the unit that is saved last stands first in the list. */
async function sampleArchives(samplesFolder: string): Promise<string[]> {
  const names = await readdir(samplesFolder).catch((error: NodeJS.ErrnoException) => {
    if (error.code === 'ENOENT') return [];
    throw error;
  });
  return names.filter((name) => name.endsWith(archiveEnding)).sort();
}

/**
 * Puts the invented sample units into a book that has never had a unit. They are imported once: the book remembers.
 *
 * @throws AppError of the book, ARCHIVE_REFUSED; CANCELLED when the signal aborts
 * @rule BE21
 */
export async function giveSampleUnits(book: Book, samplesFolder: string, signal: AbortSignal): Promise<void> {
  await withBookErrors(book.folder, async () => {
    const { port, folder } = book;
    if ((await port.facts(path.join(folder, samplesGivenName))) !== null) return;
    const isEmpty = (await unitIds(port, folder)).length === 0;
    const names = await sampleArchives(samplesFolder);
    if (names.length === 0) return;
    await makeBook(port, folder);
    if (isEmpty) {
      for (const name of names) await importUnit(book, path.join(samplesFolder, name), name, { dryRun: false, signal });
    }
    await markGiven(book);
  });
}
