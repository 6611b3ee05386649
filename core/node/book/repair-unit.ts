import path from 'node:path';
import { AppError } from '../../base/errors';
import { recordText } from '../../book/read-record';
import type { UnitRecord } from '../../contract/unit-record';
import type { CheckedUnit } from './check-unit';
import { codeOf } from './file-port';
import type { Finding } from './findings';
import { makeFolders } from './new-folder';
import { readRecordFile, recordOf, revisionFile, revisionNumbers, revisionsOf } from './revision-files';
import { dropFile, nameExclusively, writeUnfinished } from './whole-file';

/** Moves a damaged file of records into the folder `damaged`, beside what lies there already. */
async function putAside({ port, folder }: CheckedUnit, file: string): Promise<void> {
  const aside = path.join(folder, 'damaged');
  await makeFolders(port, aside);
  let place = path.join(aside, path.basename(file));
  for (let i = 2; (await port.facts(place)) !== null; i++) place = path.join(aside, `${path.basename(file)}-${i}`);
  await port.rename(file, place);
  await port.fsyncFolder(aside);
  await port.fsyncFolder(path.dirname(file));
}

async function wholeRecord({ port, id }: CheckedUnit, file: string, revision?: number): Promise<UnitRecord | null> {
  try {
    return await readRecordFile(port, file, id, revision);
  } catch (error) {
    if (error instanceof AppError || codeOf(error) === 'ENOENT') return null;
    throw error;
  }
}

/** The newest record of a unit that is whole, in whichever file it stands. */
async function newestWhole(unit: CheckedUnit): Promise<UnitRecord | null> {
  const { port, folder } = unit;
  let newest = await wholeRecord(unit, recordOf(folder));
  for (const n of await revisionNumbers(port, folder)) {
    if (n > (newest?.revision ?? 0)) newest = (await wholeRecord(unit, revisionFile(folder, n), n)) ?? newest;
  }
  return newest;
}

/** Writes a record as `unit.json`, and as its revision where that is not there. */
async function writeNewest({ port, folder }: CheckedUnit, record: UnitRecord): Promise<void> {
  const bytes = [new TextEncoder().encode(recordText(record))];
  const place = revisionFile(folder, record.revision);
  if ((await port.facts(place)) === null) {
    await makeFolders(port, revisionsOf(folder));
    const revision = await writeUnfinished(port, place, bytes);
    await nameExclusively(port, revision, place);
    await dropFile(port, revision);
    await port.fsyncFolder(revisionsOf(folder));
  }
  await port.rename(await writeUnfinished(port, recordOf(folder), bytes), recordOf(folder));
  await port.fsyncFolder(folder);
}

const inRecords = ['REVISION_DAMAGED', 'UNIT_JSON_DAMAGED', 'UNIT_JSON_OLD'];

/** Puts damaged records aside and goes on from the newest whole one. @returns what was done about a finding */
async function repairRecords(
  book: string,
  unit: CheckedUnit,
  findings: readonly Finding[],
): Promise<(one: Finding) => string | undefined> {
  const wrong = findings.filter(({ code }) => inRecords.includes(code));
  // Read before anything is moved: a copy may be the only whole record.
  const newest = await newestWhole(unit);
  const isNewer = findings.some(({ level }) => level === 'newer');
  const isIncomplete = newest !== null && (await unit.port.facts(revisionFile(unit.folder, newest.revision))) === null;
  if (newest === null || isNewer || (wrong.length === 0 && !isIncomplete)) return () => undefined;
  for (const { code, place } of wrong) {
    const file = path.join(book, place);
    if (code !== 'UNIT_JSON_OLD' && (await unit.port.facts(file)) !== null) await putAside(unit, file);
  }
  await writeNewest(unit, newest);
  return ({ code }) => {
    if (code === 'REVISION_DAMAGED') return 'put aside into the folder damaged';
    return inRecords.includes(code) ? `written from revision ${newest.revision}` : undefined;
  };
}

/**
 * Puts a unit in order as far as that loses nothing: damaged records go into the folder `damaged`, `unit.json` is written
 * from the newest whole record (its revision too where it is missing), unfinished files are removed. Originals, damaged
 * or not spoken of, are never touched.
 *
 * @param findings of `checkUnit`, while the unit is locked
 * @returns the findings, with what was done about each
 * @rule BK21
 */
export async function repairUnit(book: string, unit: CheckedUnit, findings: readonly Finding[]): Promise<Finding[]> {
  const doneAbout = await repairRecords(book, unit, findings);
  const repaired: Finding[] = [];
  for (const one of findings) {
    if (one.code === 'UNFINISHED_LEFT') await dropFile(unit.port, path.join(book, one.place));
    const done = one.code === 'UNFINISHED_LEFT' ? 'removed' : doneAbout(one);
    repaired.push(done === undefined ? one : { ...one, repaired: done });
  }
  return repaired;
}
