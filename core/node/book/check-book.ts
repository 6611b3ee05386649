import path from 'node:path';
import type { Book } from './book';
import { listUnits, unitIds, unitsOf } from './book-index';
import { withBookErrors } from './book-failures';
import { checkUnit, type CheckedUnit } from './check-unit';
import { finding, type Finding } from './findings';
import { isRunning } from './processes';
import { repairUnit } from './repair-unit';
import { namesIn } from './revision-files';
import { whileLocked } from './unit-lock';
import { makerOfUnfinished } from './whole-file';

export interface CheckOptions {
  readonly repair: boolean;
  readonly signal: AbortSignal;
  readonly onProgress?: (done: number, inAll: number) => void;
}

export interface BookCheck {
  readonly units: number;
  readonly findings: readonly Finding[];
}

/** Units that were never finished: a new one or an import that was killed. */
async function unfinishedUnits({ port, folder }: Book, repair: boolean): Promise<Finding[]> {
  const found: Finding[] = [];
  for (const name of await namesIn(port, unitsOf(folder))) {
    const maker = makerOfUnfinished(name);
    if (maker === null || isRunning(maker)) continue;
    const message = `was left unfinished by process ${maker}; no unit of the book is in it`;
    const one = finding(null, 'UNFINISHED_LEFT', `units/${name}`, message);
    if (repair) await port.removeFolder(path.join(unitsOf(folder), name));
    found.push(repair ? { ...one, repaired: 'removed' } : one);
  }
  return found;
}

async function checkOne(book: Book, id: string, { repair, signal }: CheckOptions): Promise<Finding[]> {
  const unit: CheckedUnit = { port: book.port, folder: book.unitFolder(id), id, signal };
  if (!repair) return checkUnit(book.folder, unit);
  const before = await checkUnit(book.folder, unit);
  if (before.length === 0) return before;
  // Taking the lock takes a left one away; what is repaired is what is found while it is held.
  const left = before.filter(({ code }) => code === 'LOCK_LEFT').map((one) => ({ ...one, repaired: 'removed' }));
  const options = { patienceMs: book.patienceMs, now: book.now };
  return whileLocked(book.port, unit.folder, options, async () => {
    const found = await checkUnit(book.folder, unit);
    return [...left, ...(await repairUnit(book.folder, unit, found))];
  });
}

/**
 * Puts one unit of a book in order, as `checkBook` does with `repair`.
 *
 * @throws AppError UNIT_LOCKED, BOOK_NOT_USABLE
 * @rule BK21
 */
export function repairInBook(book: Book, id: string, signal: AbortSignal): Promise<readonly Finding[]> {
  return withBookErrors(book.folder, () => checkOne(book, id, { repair: true, signal }));
}

/**
 * Checks every unit of a book, and with `repair` puts in order what can be without losing anything.
 *
 * @throws AppError BOOK_TOO_NEW, UNIT_LOCKED, BOOK_NOT_USABLE
 * @rule BK20, BK21
 */
export function checkBook(book: Book, options: CheckOptions): Promise<BookCheck> {
  return withBookErrors(book.folder, async () => {
    const ids = await unitIds(book.port, book.folder);
    const findings = await unfinishedUnits(book, options.repair);
    for (const [i, id] of ids.entries()) {
      options.signal.throwIfAborted();
      options.onProgress?.(i, ids.length);
      findings.push(...(await checkOne(book, id, options)));
    }
    // Also says when the book is too new; an index that is missing or old is made again.
    if (options.repair) await listUnits(book.port, book.folder);
    return { units: ids.length, findings };
  });
}
