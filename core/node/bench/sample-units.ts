import { readdir } from 'node:fs/promises';
import path from 'node:path';
import { archiveEnding } from '../../contract/archive-file';
import type { Book } from '../book/book';
import { withBookErrors } from '../book/book-failures';
import { unitIds } from '../book/book-index';
import { importUnit, unitIn } from '../book/import-unit';
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

interface SampleUnit {
  readonly unit: string;
  /** Of its archive. */
  readonly name: string;
  readonly file: string;
}

/** The units that come with the program, the tuner last: the unit that is saved last stands first in the list. */
async function sampleUnits(samplesFolder: string): Promise<SampleUnit[]> {
  const names = await readdir(samplesFolder).catch((error: NodeJS.ErrnoException) => {
    if (error.code === 'ENOENT') return [];
    throw error;
  });
  const archives = names.filter((name) => name.endsWith(archiveEnding)).sort();
  return Promise.all(
    archives.map(async (name) => {
      const file = path.join(samplesFolder, name);
      return { unit: await unitIn(file, name), name, file };
    }),
  );
}

/**
 * Puts the invented sample units into a book that has never had a unit of its own. They are imported once: the book
 * remembers, when all of them are there.
 *
 * @throws AppError of the book, ARCHIVE_REFUSED; CANCELLED when the signal aborts
 * @rule BE21
 */
export async function giveSampleUnits(book: Book, samplesFolder: string, signal: AbortSignal): Promise<void> {
  await withBookErrors(book.folder, async () => {
    const { port, folder } = book;
    if ((await port.facts(path.join(folder, samplesGivenName))) !== null) return;
    const there = await unitIds(port, folder);
    const samples = await sampleUnits(samplesFolder);
    if (samples.length === 0) return;
    await makeBook(port, folder);
    const isOwn = (id: string): boolean => !samples.some(({ unit }) => unit === id);
    // Samples alone: the program was ended when it had put some of them there.
    if (!there.some(isOwn)) {
      for (const { unit, name, file } of samples)
        if (!there.includes(unit)) await importUnit(book, file, name, { dryRun: false, signal });
    }
    await markGiven(book);
  });
}
