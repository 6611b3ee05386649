import path from 'node:path';
import { AppError } from '../../base/errors';
import { bookError } from '../../book/book-errors';
import type { Book } from './book';
import { withBookErrors } from './book-failures';
import { codeOf } from './file-port';
import { LockFile, newLockEntry, type HeldLock, type LockEntry } from './lock-file';
import { makeBook } from './new-folder';
import { stateOf } from './processes';
import { beatMs, Silence } from './silence';

/** `2026-05-31 18:00`, UTC. */
const timeText = (since: string): string => since.slice(0, 16).replace('T', ' ');

function inUse(entry: LockEntry | null, owner: LockEntry): AppError {
  const remedy =
    'Go on there, or close it there: then you can go on here. If it was broken off, you can within a minute or two.';
  if (entry === null) return bookError('BOOK_IN_USE', 'Another program has this book open.', remedy);
  const where = entry.host === owner.host ? '' : ` on ${entry.host}`;
  const message = `Another Evendial (process ${entry.pid}${where}) has had this book open since ${timeText(entry.since)} UTC.`;
  return bookError('BOOK_IN_USE', message, remedy);
}

export interface PresenceOptions {
  /** Between two renewals, ms. */
  readonly everyMs?: number;
  /** Of a clock that only goes forward. */
  readonly nowMs?: () => number;
}

/**
 * The mark of the bench that has a book open, so that a second one says so instead of changing units under the hands of the
 * first. It is renewed, and the mark of a bench that has ended, however it ended, is nobody's: where the system cannot tell,
 * once it was not renewed for long. Commands of the command line do not ask: each unit's own lock keeps their changes whole.
 *
 * @rule BK28
 */
export class Presence {
  private lock: LockFile | null = null;
  private entry: Promise<LockEntry> | null = null;
  private trying: Promise<AppError | null> | null = null;
  private beat: NodeJS.Timeout | null = null;
  private renewing: Promise<void> = Promise.resolve();
  private isClosed = false;
  private readonly silence = new Silence();
  private readonly everyMs: number;
  private readonly nowMs: () => number;

  constructor(
    private readonly book: Book,
    { everyMs = beatMs, nowMs = () => performance.now() }: PresenceOptions = {},
  ) {
    this.everyMs = everyMs;
    this.nowMs = nowMs;
  }

  private get file(): string {
    return path.join(this.book.folder, 'in-use');
  }

  /**
   * Why nothing can be changed from here; null: it can. Tries again each time, until the book is this one's.
   *
   * @returns BOOK_IN_USE, or BOOK_NOT_USABLE: a book on a disk that cannot be written to can be looked at
   */
  async readOnly(): Promise<AppError | null> {
    if (this.lock !== null) return null;
    this.trying ??= this.take().finally(() => {
      this.trying = null;
    });
    return this.trying;
  }

  private async take(): Promise<AppError | null> {
    const { port, folder, now } = this.book;
    this.entry ??= newLockEntry(now());
    const entry = await this.entry;
    try {
      return await withBookErrors(folder, async () => {
        await makeBook(port, folder);
        const lock = await LockFile.prepare(port, this.file, entry);
        const attempt = await lock.attempt((held) => this.isLeft(held)).finally(() => lock.forget());
        if (!attempt.isHeld) return inUse(attempt.by, entry);
        if (this.isClosed) await lock.release();
        else this.hold(lock);
        return null;
      });
    } catch (error) {
      if (error instanceof AppError) return error;
      throw error;
    }
  }

  private async isLeft({ text, entry }: HeldLock): Promise<boolean> {
    // One that cannot be read was torn while it was made: on such disks there is no better one.
    if (entry === null) return true;
    const state = await stateOf(entry);
    if (state !== 'unknown') return state === 'ended';
    const facts = await this.book.port.facts(this.file);
    return facts !== null && this.silence.isTooLong(`${facts.stamp} ${text}`, this.nowMs());
  }

  private hold(lock: LockFile): void {
    this.lock = lock;
    this.beat = setInterval(() => {
      this.renewing = this.renewing.then(() => this.renew(lock));
    }, this.everyMs);
    this.beat.unref();
  }

  private async renew(lock: LockFile): Promise<void> {
    if (this.lock !== lock) return;
    const isStillOurs = await lock.renew().catch((error: unknown) => {
      // A disk that refuses for a while: the next beat tries again.
      if (codeOf(error) === '') throw error;
      return true;
    });
    // Whoever took it while this machine was asleep has the book now.
    if (!isStillOurs && this.lock === lock) this.letGo();
  }

  private letGo(): void {
    if (this.beat) clearInterval(this.beat);
    this.beat = null;
    this.lock = null;
  }

  /** @throws AppError as `readOnly` tells */
  async assertWritable(): Promise<void> {
    const why = await this.readOnly();
    if (why !== null) throw why;
  }

  async close(): Promise<void> {
    this.isClosed = true;
    await this.trying;
    const { lock } = this;
    this.letGo();
    await this.renewing;
    await lock?.release();
  }
}
