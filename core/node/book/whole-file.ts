import { randomBytes } from 'node:crypto';
import path from 'node:path';
import { codeOf, type FilePort } from './file-port';

const unfinished = /^\..+\.(\d+)-[0-9a-f]+\.unfinished$/;

/** A name beside `place` for what is under way: hidden, and telling which process makes it. */
export function unfinishedName(place: string): string {
  const token = `${process.pid}-${randomBytes(6).toString('hex')}`;
  return path.join(path.dirname(place), `.${path.basename(place)}.${token}.unfinished`);
}

/** The process that makes a file of this name, or null when it is no unfinished one. */
export function makerOfUnfinished(name: string): number | null {
  const found = unfinished.exec(name);
  return found ? Number(found[1]) : null;
}

/** Takes an unfinished file away; that it is not there (any more) is all right. */
export async function dropFile(port: FilePort, file: string): Promise<void> {
  try {
    await port.unlink(file);
  } catch (error) {
    if (codeOf(error) !== 'ENOENT') throw error;
  }
}

/**
 * Writes parts under an unfinished name, flushed to the disk.
 *
 * @returns the name; a failure leaves nothing behind
 */
export async function writeUnfinished(
  port: FilePort,
  place: string,
  parts: AsyncIterable<Uint8Array> | Iterable<Uint8Array>,
): Promise<string> {
  const name = unfinishedName(place);
  const file = await port.openExclusively(name);
  try {
    try {
      for await (const part of parts) await file.write(part);
      await file.fsync();
    } finally {
      await file.close();
    }
  } catch (error) {
    await dropFile(port, name);
    throw error;
  }
  return name;
}

const noLinks = ['EPERM', 'ENOTSUP', 'EOPNOTSUPP', 'ENOSYS', 'EMLINK'];

/**
 * Gives an unfinished file its name, only if nothing has it. Disks that know no second names (some memory cards) get a
 * copy instead, which a power cut can tear; whoever reads has to expect that.
 *
 * @returns false: the name is taken
 */
export async function nameExclusively(port: FilePort, name: string, place: string): Promise<boolean> {
  try {
    await port.link(name, place);
    return true;
  } catch (error) {
    if (codeOf(error) === 'EEXIST') return false;
    if (!noLinks.includes(codeOf(error))) throw error;
  }
  return copyExclusively(port, name, place);
}

async function copyExclusively(port: FilePort, name: string, place: string): Promise<boolean> {
  let file;
  try {
    file = await port.openExclusively(place);
  } catch (error) {
    if (codeOf(error) === 'EEXIST') return false;
    throw error;
  }
  try {
    for await (const part of port.readParts(name)) await file.write(part);
    await file.fsync();
  } catch (error) {
    await dropFile(port, place);
    throw error;
  } finally {
    await file.close();
  }
  return true;
}
