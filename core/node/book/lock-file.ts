import { randomBytes } from 'node:crypto';
import { codeOf, type FilePort } from './file-port';
import { ownMark, type ProcessMark } from './processes';
import { dropFile, nameExclusively, unfinishedName, writeUnfinished } from './whole-file';

/** What stands in a lock. */
export interface LockEntry extends ProcessMark {
  readonly token: string;
  readonly since: string;
}

/** What this process would put into a lock. @param since ISO 8601, UTC */
export async function newLockEntry(since: string): Promise<LockEntry> {
  return { ...(await ownMark()), token: randomBytes(8).toString('hex'), since };
}

/** A lock's text and what it says. */
export interface HeldLock {
  readonly text: string;
  /** null: it cannot be read. */
  readonly entry: LockEntry | null;
}

/** null: there is none. */
export async function readLock(port: FilePort, file: string): Promise<HeldLock | null> {
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

/** How an attempt to take a lock went. */
export type LockAttempt =
  | { readonly isHeld: true }
  /** By whom it is held; null: that cannot be read. */
  | { readonly isHeld: false; readonly by: LockEntry | null };

/** A lock that is being taken: prepared once, tried as often as its owner likes. */
export class LockFile {
  private constructor(
    private readonly port: FilePort,
    private readonly file: string,
    private readonly text: string,
    private readonly prepared: string,
  ) {}

  static async prepare(port: FilePort, file: string, entry: LockEntry): Promise<LockFile> {
    const text = `${JSON.stringify(entry)}\n`;
    return new LockFile(port, file, text, await writeUnfinished(port, file, [new TextEncoder().encode(text)]));
  }

  /**
   * Takes the lock when nobody holds it.
   *
   * @param isLeft  whether the lock that is there was left behind, and is nobody's
   */
  async attempt(isLeft: (held: HeldLock) => Promise<boolean>): Promise<LockAttempt> {
    const { port, file } = this;
    // Once more after a lock that was left behind, or was given free meanwhile.
    for (;;) {
      if (await nameExclusively(port, this.prepared, file)) return { isHeld: true };
      const held = await readLock(port, file);
      if (held === null) continue;
      if (!(await isLeft(held))) return { isHeld: false, by: held.entry };
      await clearLeftBehind(port, file, held.text);
    }
  }

  /** What was prepared is not needed any more, whether the lock was taken or not. */
  forget(): Promise<void> {
    return dropFile(this.port, this.prepared);
  }

  /** Shows that its owner runs. @returns false: it is another's by now, or nobody's */
  async renew(): Promise<boolean> {
    try {
      const held = await readLock(this.port, this.file);
      if (held?.text !== this.text) return false;
      await this.port.touch(this.file);
      return true;
    } catch (error) {
      if (codeOf(error) === 'ENOENT') return false;
      throw error;
    }
  }

  /** Gives the lock free. Whoever took it for left behind has it now: then it is not ours to release. */
  async release(): Promise<void> {
    const held = await readLock(this.port, this.file);
    if (held?.text === this.text) await dropFile(this.port, this.file);
  }
}
