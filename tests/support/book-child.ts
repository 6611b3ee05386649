// A process that works on a book until it is killed: bundled and started by the tests of the book's crash safety.
import { writeSync } from 'node:fs';
import { addPhoto } from '../../core/book/edits';
import type { UnitRecord } from '../../core/contract/unit-record';
import { Book } from '../../core/node/book/book';
import { checkBook } from '../../core/node/book/check-book';
import { importUnit } from '../../core/node/book/import-unit';

const [task, folder, id, ...rest] = process.argv.slice(2);
const { signal } = new AbortController();

/** One line at once: what was told is done, even if the process is killed with the next breath. */
const tell = (what: unknown): void => void writeSync(1, `${JSON.stringify(what)}\n`);

const withPart = (name: string) => (unit: UnitRecord) => ({ ...unit, parts: [...unit.parts, { name }] });

/** Saves, keeps photos, imports and checks, over and over. */
async function work(book: Book, photos: readonly string[], archives: readonly string[]): Promise<void> {
  tell({ ready: true });
  for (let i = 0; ; i++) {
    const { revision } = await book.edit(id, withPart(`part ${process.pid} ${i}`));
    tell({ revision });
    const source = photos[i % photos.length];
    const { sha256, ending, bytes } = await book.keepOriginal(id, source, signal);
    const photo = { sha256, ending, bytes, name: `${i}.jpg`, role: 'other' as const };
    const { revision: withPhoto } = await book.edit(id, (unit) => addPhoto(unit, photo));
    tell({ revision: withPhoto, sha256 });
    if (i < archives.length) {
      const { unit } = await importUnit(book, archives[i], 'archive', { dryRun: false, signal });
      tell({ imported: unit.id });
    }
    await checkBook(book, { repair: true, signal });
  }
}

/** Adds parts to one unit, beside other processes. */
async function addParts(book: Book, name: string, count: number): Promise<void> {
  for (let i = 0; i < count; i++) await book.edit(id, withPart(`${name} ${i}`));
}

/** Saves one part, and takes its time while it holds the lock. */
async function hold(book: Book, name: string, ms: number): Promise<void> {
  await book.edit(id, (unit) => {
    tell({ holding: process.pid });
    const until = performance.now() + ms;
    while (performance.now() < until);
    return withPart(name)(unit);
  });
  tell({ saved: true });
}

const book = new Book(folder, { patienceMs: 30_000 });
const photos = rest.filter((file) => file.endsWith('.jpg'));
const archives = rest.filter((file) => file.endsWith('.evendial'));
if (task === 'work') await work(book, photos, archives);
else if (task === 'add') await addParts(book, rest[0], Number(rest[1]));
else await hold(book, rest[0], Number(rest[1]));
