import path from 'node:path';
import { AppError } from '../../base/errors';
import { problemsInRecord, readRecord, recordText } from '../../book/read-record';
import { bookError } from '../../book/book-errors';
import type { UnitRecord } from '../../contract/unit-record';
import { codeOf, type FilePort } from './file-port';
import { dropFile, nameExclusively, writeUnfinished } from './whole-file';

export const revisionsOf = (folder: string): string => path.join(folder, 'revisions');
export const recordOf = (folder: string): string => path.join(folder, 'unit.json');
export const revisionFile = (folder: string, revision: number): string =>
  path.join(revisionsOf(folder), `${revision}.json`);

/** The number in a revision's file name, or null for any other file. */
export function revisionOfName(name: string): number | null {
  const found = /^([1-9]\d{0,8})\.json$/.exec(name);
  return found ? Number(found[1]) : null;
}

/** Names in a folder that may be missing. */
export async function namesIn(port: FilePort, folder: string): Promise<string[]> {
  return (await port.facts(folder))?.kind === 'folder' ? port.list(folder) : [];
}

/** Numbers of the revisions of a unit, rising. */
export async function revisionNumbers(port: FilePort, folder: string): Promise<number[]> {
  const names = await namesIn(port, revisionsOf(folder));
  return names.flatMap((name) => revisionOfName(name) ?? []).sort((a, b) => a - b);
}

/** The record in a file of the unit. @throws AppError as `readRecord`, RECORD_DAMAGED when it is another's */
export async function readRecordFile(port: FilePort, file: string, id: string, revision?: number): Promise<UnitRecord> {
  const record = readRecord(new TextDecoder().decode(await port.readFile(file)), file);
  if (record.id === id && (revision === undefined || record.revision === revision)) return record;
  const message = `${file} is damaged: it holds revision ${record.revision} of ${record.id}`;
  throw bookError('RECORD_DAMAGED', message, "'evendial unit check' tells what is whole.");
}

/** Why a file could not be read, when that is its own damage or absence; anything else is thrown. */
function asDamage(error: unknown): Error {
  if (error instanceof AppError && error.code === 'RECORD_DAMAGED') return error;
  if (error instanceof Error && codeOf(error) === 'ENOENT') return error;
  throw error;
}

/**
 * A unit as it was last saved: its newest revision. Where that is damaged, `unit.json` stands in, which is a copy of the
 * last one whose saving came to its end - unless a whole revision is newer.
 *
 * @throws AppError RECORD_DAMAGED, RECORD_TOO_NEW; ENOENT when there is no such unit
 * @rule BK15
 */
export async function readNewest(port: FilePort, folder: string): Promise<UnitRecord> {
  const id = path.basename(folder);
  const numbers = await revisionNumbers(port, folder);
  const newest = numbers.at(-1);
  let failure: Error | null = null;
  if (newest !== undefined) {
    try {
      return await readRecordFile(port, revisionFile(folder, newest), id, newest);
    } catch (error) {
      failure = asDamage(error);
    }
  }
  try {
    const copy = await readRecordFile(port, recordOf(folder), id);
    if (copy.revision >= (numbers.at(-2) ?? 0)) return copy;
  } catch (error) {
    failure ??= asDamage(error);
  }
  throw failure ?? bookError('RECORD_DAMAGED', `${folder} has no revision that is whole`, 'Import the unit again.');
}

/**
 * Saves the next revision: a file of its own under the next number, made exclusively and flushed with its folder, then
 * `unit.json` in one step. Once this resolves with true the revision outlives a crash and a power cut.
 *
 * @param base  the revision that was edited
 * @param make  the record of the number that it gets
 * @returns false: another revision has come since `base`; nothing was saved
 * @rule BK14
 */
export async function saveRevision(
  port: FilePort,
  folder: string,
  base: number,
  make: (revision: number) => UnitRecord,
): Promise<UnitRecord | false> {
  // The numbers are read before the newest record: what comes in between takes the number, and naming fails.
  const numbers = await revisionNumbers(port, folder);
  if ((await readNewest(port, folder)).revision !== base) return false;
  return (await writeRevision(port, folder, make((numbers.at(-1) ?? 0) + 1))) || false;
}

/** Writes one revision and the copy of it. @returns false: its number is taken */
export async function writeRevision(port: FilePort, folder: string, record: UnitRecord): Promise<UnitRecord | false> {
  // A record that could not be read again must never get this far: it would be our own defect.
  const problems = problemsInRecord(record);
  if (problems.length > 0) throw new Error(`a record that is not valid was to be saved: ${problems.join('; ')}`);
  const bytes = [new TextEncoder().encode(recordText(record))];
  const place = revisionFile(folder, record.revision);
  // Both are on the disk before either has its name: a full disk stops here.
  const revision = await writeUnfinished(port, place, bytes);
  let copy: string | null = null;
  try {
    copy = await writeUnfinished(port, recordOf(folder), bytes);
    if (!(await nameExclusively(port, revision, place))) return false;
    await port.fsyncFolder(revisionsOf(folder));
    await port.rename(copy, recordOf(folder));
    copy = null;
    await port.fsyncFolder(folder);
  } finally {
    await dropFile(port, revision);
    if (copy !== null) await dropFile(port, copy);
  }
  return record;
}
