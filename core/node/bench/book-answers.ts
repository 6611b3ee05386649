import { AppError } from '../../base/errors';
import { applyEdit } from '../../book/apply-edit';
import type { BookEntry, BookVerbs, UnitId, UnitRevision } from '../../contract/book-verbs';
import type { TimelineEntry } from '../../book/timeline';
import type { Book } from '../book/book';
import type { ListedUnit } from '../book/book-index';
import type { Archives } from './archives';
import type { Presence } from '../book/presence';
import type { CallRun } from './calls';
import { fileReadings, type FilingBench } from './filing';
import { LastSheet } from './last-sheet';
import { repairedUnit } from './repaired-unit';
import { layUnit } from './laying';
import { unitThumbnail } from './thumbnails';
import { sentencesToPage, toldToPage, withoutPlaces } from './told-to-page';
import { importArchive, unitArchive, unitLeftovers, unitSheet } from './unit-files';

export type BookAnswers = {
  readonly [Verb in keyof BookVerbs]: (
    asks: BookVerbs[Verb]['asks'],
    run: CallRun,
  ) => Promise<BookVerbs[Verb]['answers']>;
};

function entryOf(unit: ListedUnit, book: Book): BookEntry {
  if ('error' in unit) return { id: unit.id, error: withoutPlaces(unit.error.message, book) };
  const { id, name, savedAt, windows, revision, trials, photos, chosen } = unit;
  return { id, name, savedAt, windows, revision, trials, photos, chosen };
}

const revisionOf = ({ revision, savedAt, restores, changes }: TimelineEntry): UnitRevision => ({
  revision,
  savedAt,
  restores: restores ?? null,
  changes,
});

/** @throws AppError UNIT_UNKNOWN */
async function assertThere(book: Book, unit: UnitId): Promise<void> {
  if ((await book.port.facts(book.unitFolder(unit))) !== null) return;
  throw new AppError('usage', 'UNIT_UNKNOWN', 'This unit is not in the book any more.', 'Choose another in the list.');
}

export interface BookBench extends FilingBench {
  readonly archives: Archives;
  readonly presence: Presence;
  /** Resolves when a new book has its sample units, or cannot have them. */
  readonly samplesGiven: Promise<void>;
  /** Told when an archive is not needed any more. */
  readonly onArchiveDone: (place: string) => void;
}

/**
 * Answers the page's questions about the book.
 *
 * @rule BE16, BE4
 */
export function createBookAnswers(bench: BookBench): BookAnswers {
  const { book } = bench;
  const lastSheet = new LastSheet();
  const answers: BookAnswers = {
    async bookList({ search }) {
      await bench.samplesGiven;
      const why = await bench.presence.readOnly();
      const units = await book.list(search);
      const readOnly = why === null ? null : sentencesToPage(why, book);
      return { entries: units.map((entry) => entryOf(entry, book)), readOnly };
    },
    async unitRead({ unit }) {
      await assertThere(book, unit);
      return book.read(unit);
    },
    async unitCreate({ name, like }) {
      await bench.presence.assertWritable();
      if (like !== null) await assertThere(book, like);
      return book.create(name, like === null ? undefined : await book.read(like));
    },
    async unitEdit({ unit, edits }) {
      await bench.presence.assertWritable();
      await assertThere(book, unit);
      return book.edit(unit, (record) => edits.reduce(applyEdit, record));
    },
    async unitRestore({ unit, which }) {
      await bench.presence.assertWritable();
      await assertThere(book, unit);
      return book.restore(unit, which);
    },
    async unitRepair({ unit }, { signal }) {
      await bench.presence.assertWritable();
      await assertThere(book, unit);
      return repairedUnit(book, unit, signal);
    },
    async unitLeftovers(asks, run) {
      await assertThere(book, asks.unit);
      return unitLeftovers(book, asks, run);
    },
    async unitTimeline({ unit, most }) {
      await assertThere(book, unit);
      return (await book.timeline(unit, most)).map(revisionOf).reverse();
    },
    async unitThumbnail(asks, run) {
      await assertThere(book, asks.unit);
      return unitThumbnail(book, asks, run);
    },
    async fileReadings({ filed }, run) {
      await bench.presence.assertWritable();
      await assertThere(book, filed[0].unit);
      return fileReadings(bench, filed, run);
    },
    async layUnit({ unit, window }) {
      await assertThere(book, unit);
      return layUnit(bench, await book.read(unit), window);
    },
    async unitSheet(asks, run) {
      await assertThere(book, asks.unit);
      return unitSheet(book, asks, { program: `Evendial ${bench.version}`, lastSheet }, run);
    },
    async unitExport(asks, run) {
      await assertThere(book, asks.unit);
      return unitArchive(book, asks, run);
    },
    async unitImport({ upload }, run) {
      // It may be one of the samples, which is just being written.
      await bench.samplesGiven;
      await bench.presence.assertWritable();
      const archive = bench.archives.take(upload);
      return importArchive(book, archive, run).finally(() => bench.onArchiveDone(archive.path));
    },
  };
  const told = Object.entries(answers).map(([verb, answer]) => [
    verb,
    (asks: never, run: CallRun) =>
      answer(asks, run).catch((error: unknown) => {
        throw toldToPage(error, book);
      }),
  ]);
  return Object.fromEntries(told) as BookAnswers;
}
