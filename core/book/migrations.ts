import { unitVersion } from '../contract/unit-record';

/** A record of an older version, of which nothing is known but that it is an object. */
export type StoredRecord = Readonly<Record<string, unknown>>;

/** Makes a record of version n one of version n + 1, as a new object. */
export type Migration = (record: StoredRecord) => StoredRecord;

/** By the version that they start from. Never changed once records of it may be on a disk; new ones go to the end. */
export const migrations: Readonly<Record<number, Migration>> = {};

/**
 * A stored record as this version has it: one numbered step after the other, on a copy; the stored file stays as it is.
 *
 * @param steps  by the version that they start from
 * @throws Error  a step is missing: a defect
 * @rule BK4
 */
export function migrateRecord(
  stored: StoredRecord,
  from: number,
  to: number = unitVersion,
  steps: Readonly<Record<number, Migration>> = migrations,
): StoredRecord {
  let record = structuredCloneOf(stored);
  for (let version = from; version < to; version++) {
    const step = steps[version];
    if (!step) throw new Error(`there is no migration from version ${version}`);
    record = { ...step(record), version: version + 1 };
  }
  return record;
}

/** A deep copy of what came from JSON. */
function structuredCloneOf(stored: StoredRecord): StoredRecord {
  return JSON.parse(JSON.stringify(stored)) as StoredRecord;
}
