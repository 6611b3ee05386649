import { placeOf, sentencesOf } from '../contract/series';
import { unitRecord, unitVersion, type UnitRecord } from '../contract/unit-record';
import { bookError } from './book-errors';
import { migrateRecord, type StoredRecord } from './migrations';
import { recordProblems } from './record-problems';

const damagedRemedy =
  "'evendial unit check --repair' takes the newest revision that is whole; the damaged file is kept.";

const damaged = (called: string, why: string): Error =>
  bookError('RECORD_DAMAGED', `${called} is damaged: ${why}`, damagedRemedy);

function versionOf(given: StoredRecord, called: string): number {
  if (given['format'] !== 'evendial-unit') throw damaged(called, 'it is no record of a unit');
  const version = given['version'];
  if (typeof version !== 'number' || !Number.isInteger(version) || version < 1)
    throw damaged(called, 'it does not say which version it has');
  if (version > unitVersion) {
    const message = `${called} is a record of version ${version}; this program reads up to version ${unitVersion}`;
    throw bookError('RECORD_TOO_NEW', message, 'Use a newer version of this program. The record was not touched.');
  }
  return version;
}

/** Every place of a record that is wrong, in words; an empty list: none. @rule BK1, BK2 */
export function problemsInRecord(given: unknown): string[] {
  const read = unitRecord.safeParse(given);
  if (!read.success) return read.error.issues.flatMap((issue) => sentencesOf(issue, given));
  return recordProblems(read.data).map(({ path, message }) => `${placeOf(path)}: ${message}`);
}

/**
 * The record in a file of the book: checked, and brought to this version on a copy. Keys come in the order of the format,
 * so that equal records are equal texts.
 *
 * @param called  what to call the file in a message
 * @throws AppError RECORD_DAMAGED  with the first places that are wrong; RECORD_TOO_NEW
 * @rule BK1, BK3, BK4
 */
export function readRecord(text: string, called: string): UnitRecord {
  let given: unknown;
  try {
    given = JSON.parse(text);
  } catch {
    throw damaged(called, 'it is no whole JSON document');
  }
  if (typeof given !== 'object' || given === null || Array.isArray(given)) throw damaged(called, 'it holds no object');
  const stored = given as StoredRecord;
  const record = migrateRecord(stored, versionOf(stored, called));
  const problems = problemsInRecord(record);
  if (problems.length > 0) throw damaged(called, problems.slice(0, 3).join('; '));
  return unitRecord.parse(record);
}

/** A record as it is written: JSON, one blank a level, ending with a line end. @rule BK1 */
export function recordText(record: UnitRecord): string {
  return `${JSON.stringify(unitRecord.parse(record), null, 1)}\n`;
}
