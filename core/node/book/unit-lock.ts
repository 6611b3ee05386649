import path from 'node:path';
import { bookError } from '../../book/book-errors';
import type { FilePort } from './file-port';
import { LockFile, newLockEntry, type HeldLock, type LockEntry } from './lock-file';
import { hasEnded } from './processes';

export interface LockOptions {
  /** How long to wait for another process, ms. */
  readonly patienceMs: number;
  readonly now: () => string;
}

const pollMs = 40;
const pause = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms));

function isLocked(folder: string, entry: LockEntry | null): Error {
  const who = entry ? `process ${entry.pid} on ${entry.host}, since ${entry.since}` : 'a process that cannot be told';
  const message = `the unit ${path.basename(folder)} is being changed by ${who}`;
  const remedy = `Try again when it is done. If no such process runs, delete the file ${path.join(folder, 'lock')}.`;
  return bookError('UNIT_LOCKED', message, remedy);
}

async function takeLock(lock: LockFile, folder: string, patienceMs: number): Promise<void> {
  const until = performance.now() + patienceMs;
  for (;;) {
    const hasWaited = performance.now() > until;
    // One that stayed unreadable for all the time of waiting was torn while it was made.
    const isLeft = async ({ entry }: HeldLock): Promise<boolean> => (entry === null ? hasWaited : hasEnded(entry));
    const attempt = await lock.attempt(isLeft);
    if (attempt.isHeld) return;
    if (hasWaited) throw isLocked(folder, attempt.by);
    await pause(pollMs);
  }
}

/**
 * Does something while holding a unit's lock. A dead owner's lock is taken at once; a live one is waited for.
 * The lock keeps processes from redoing each other's work; what keeps changes from being lost are exclusive revisions.
 *
 * @param folder  the unit's
 * @throws AppError UNIT_LOCKED  still held after the patience
 * @rule BK16
 */
export async function whileLocked<T>(
  port: FilePort,
  folder: string,
  { patienceMs, now }: LockOptions,
  act: () => Promise<T>,
): Promise<T> {
  const lock = await LockFile.prepare(port, path.join(folder, 'lock'), await newLockEntry(now()));
  try {
    await takeLock(lock, folder, patienceMs);
  } finally {
    await lock.forget();
  }
  try {
    return await act();
  } finally {
    await lock.release();
  }
}
