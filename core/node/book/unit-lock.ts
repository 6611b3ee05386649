import { randomBytes } from 'node:crypto';
import path from 'node:path';
import { bookError } from '../../book/book-errors';
import { codeOf, type FilePort } from './file-port';
import { hasEnded, ownMark, type ProcessMark } from './processes';
import { dropFile, nameExclusively, unfinishedName, writeUnfinished } from './whole-file';

/** What stands in a lock. */
interface LockEntry extends ProcessMark {
  readonly token: string;
  readonly since: string;
}

export interface LockOptions {
  /** How long to wait for another process, ms. */
  readonly patienceMs: number;
  readonly now: () => string;
}

const pollMs = 40;
const pause = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms));

/** The lock's text and what it says; null: there is none; entry null: it cannot be read. */
async function readLock(port: FilePort, file: string): Promise<{ text: string; entry: LockEntry | null } | null> {
  let text: string;
  try {
    text = new TextDecoder().decode(await port.readFile(file));
  } catch (error) {
    if (codeOf(error) === 'ENOENT') return null;
    throw error;
  }
  try {
    const given = JSON.parse(text) as Partial<LockEntry>;
    const isWhole = typeof given.pid === 'number' && typeof given.host === 'string' && typeof given.token === 'string';
    return { text, entry: isWhole ? (given as LockEntry) : null };
  } catch {
    // Cut short: its maker was killed while writing, on a disk without second names.
    return { text, entry: null };
  }
}

/** Whether nobody holds a lock any more: its owner has ended, or it stayed unreadable for all the time of waiting. */
async function isLeftBehind(entry: LockEntry | null, hasWaited: boolean): Promise<boolean> {
  return entry === null ? hasWaited : hasEnded(entry);
}

/**
 * Takes a dead owner's lock away. Another process may have done so meanwhile and hold a lock of its own: what was moved is
 * then put back. Even if that fails no change is lost, since revisions are made exclusively.
 */
async function clearLeftBehind(port: FilePort, file: string, text: string): Promise<void> {
  const aside = unfinishedName(file);
  try {
    await port.rename(file, aside);
  } catch (error) {
    if (codeOf(error) === 'ENOENT') return;
    throw error;
  }
  const moved = new TextDecoder().decode(await port.readFile(aside));
  if (moved !== text) await nameExclusively(port, aside, file);
  await dropFile(port, aside);
}

function isLocked(folder: string, entry: LockEntry | null): Error {
  const who = entry ? `process ${entry.pid} on ${entry.host}, since ${entry.since}` : 'a process that cannot be told';
  const message = `the unit ${path.basename(folder)} is being changed by ${who}`;
  const remedy = `Try again when it is done. If no such process runs, delete the file ${path.join(folder, 'lock')}.`;
  return bookError('UNIT_LOCKED', message, remedy);
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
  const file = path.join(folder, 'lock');
  const entry: LockEntry = { ...(await ownMark()), token: randomBytes(8).toString('hex'), since: now() };
  const text = `${JSON.stringify(entry)}\n`;
  const prepared = await writeUnfinished(port, file, [new TextEncoder().encode(text)]);
  try {
    const until = performance.now() + patienceMs;
    while (!(await nameExclusively(port, prepared, file))) {
      const held = await readLock(port, file);
      const hasWaited = performance.now() > until;
      if (held && (await isLeftBehind(held.entry, hasWaited))) await clearLeftBehind(port, file, held.text);
      else if (hasWaited) throw isLocked(folder, held?.entry ?? null);
      else if (held) await pause(pollMs);
    }
  } finally {
    await dropFile(port, prepared);
  }
  try {
    return await act();
  } finally {
    // Whoever took it for left behind has it now: then it is not ours to release.
    const held = await readLock(port, file);
    if (held?.text === text) await dropFile(port, file);
  }
}
