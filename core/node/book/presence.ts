import path from 'node:path';
import { AppError } from '../../base/errors';
import type { Book } from './book';
import { withBookErrors } from './book-failures';
import { LockFile, newLockEntry, type LockEntry } from './lock-file';
import { makeBook } from './new-folder';

/** `2026-05-31 18:00`, UTC. */
const timeText = (since: string): string => since.slice(0, 16).replace('T', ' ');

function readOnlyWords(entry: LockEntry | null, owner: LockEntry): string {
  if (entry === null) return 'Another program has this book open.';
  const where = entry.host === owner.host ? '' : ` on ${entry.host}`;
  return `Another Evendial (process ${entry.pid}${where}) has had this book open since ${timeText(entry.since)} UTC.`;
}

/**
 * The mark of the bench that has a book open, so that a second one says so instead of changing units under the hands of the
 * first. The mark of a bench that has ended, however it ended, is nobody's. Commands of the command line do not ask: each
 * unit's own lock keeps their changes whole.
 *
 * @rule BK28
 */
export class Presence {
  private lock: LockFile | null = null;
  private entry: Promise<LockEntry> | null = null;
  private trying: Promise<string | null> | null = null;
  private isClosed = false;

  constructor(private readonly book: Book) {}

  /** Why nothing can be changed from here: a sentence; null: it can. Tries again each time, until the book is this one's. */
  async readOnly(): Promise<string | null> {
    if (this.lock !== null) return null;
    this.trying ??= this.take().finally(() => {
      this.trying = null;
    });
    return this.trying;
  }

  private async take(): Promise<string | null> {
    const { port, folder, now } = this.book;
    this.entry ??= newLockEntry(now());
    const entry = await this.entry;
    try {
      return await withBookErrors(folder, async () => {
        await makeBook(port, folder);
        const lock = await LockFile.prepare(port, path.join(folder, 'in-use'), entry);
        // A mark that cannot be read was torn while it was made: on such disks there is no better one.
        const attempt = await lock.attempt(true).finally(() => lock.forget());
        if (!attempt.isHeld) return readOnlyWords(attempt.by, entry);
        if (this.isClosed) await lock.release();
        else this.lock = lock;
        return null;
      });
    } catch (error) {
      // A book on a disk that cannot be written to can be looked at.
      if (error instanceof AppError) return `${error.message}.`;
      throw error;
    }
  }

  /** @throws AppError BOOK_IN_USE */
  async assertWritable(): Promise<void> {
    const why = await this.readOnly();
    if (why === null) return;
    throw new AppError('book', 'BOOK_IN_USE', why, 'Close it there, or go on there. Nothing was changed here.');
  }

  async close(): Promise<void> {
    this.isClosed = true;
    await this.trying;
    await this.lock?.release();
    this.lock = null;
  }
}
