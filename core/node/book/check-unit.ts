import path from 'node:path';
import { AppError } from '../../base/errors';
import { originalPath } from '../../book/unit-series';
import type { UnitRecord } from '../../contract/unit-record';
import type { FilePort } from './file-port';
import { finding, type Finding, type FindingCode } from './findings';
import { checksumOf, originalOfName, photosOf } from './originals';
import { hasEnded, isRunning, type ProcessMark } from './processes';
import { namesIn, readRecordFile, recordOf, revisionFile, revisionOfName, revisionsOf } from './revision-files';
import { makerOfUnfinished } from './whole-file';

/** What a unit's folder holds, beside what is under way. */
const known = ['unit.json', 'revisions', 'photos', 'derived', 'damaged', 'lock'];

/** A unit as it is being checked. */
export interface CheckedUnit {
  readonly port: FilePort;
  /** The unit's folder, and its id. */
  readonly folder: string;
  readonly id: string;
  readonly signal: AbortSignal;
}

type Found = (code: FindingCode, place: string, message: string) => void;

/** Tells of files that are no part of a folder: left unfinished by a process that has ended, or unknown. */
function judgeStrange(names: readonly string[], inside: string, found: Found): void {
  for (const name of names) {
    const maker = makerOfUnfinished(name);
    const place = inside === '' ? name : `${inside}/${name}`;
    if (maker === null) found('FILE_UNKNOWN', place, 'is no file of a unit');
    else if (!isRunning(maker)) found('UNFINISHED_LEFT', place, `was left unfinished by process ${maker}`);
  }
}

/** The record in a file, or null when a finding says why there is none. */
async function recordIn(
  { port, id }: CheckedUnit,
  file: string,
  revision: number | undefined,
  onDamage: (error: AppError) => void,
): Promise<UnitRecord | null> {
  try {
    return await readRecordFile(port, file, id, revision);
  } catch (error) {
    if (!(error instanceof AppError)) throw error;
    onDamage(error);
    return null;
  }
}

/** Every revision that is whole, rising. */
async function checkRevisions(unit: CheckedUnit, found: Found): Promise<UnitRecord[]> {
  const { port, folder } = unit;
  const names = await namesIn(port, revisionsOf(folder));
  judgeStrange(
    names.filter((name) => revisionOfName(name) === null),
    'revisions',
    found,
  );
  const numbers = names.flatMap((name) => revisionOfName(name) ?? []).sort((a, b) => a - b);
  const aside = await namesIn(port, path.join(folder, 'damaged'));
  for (let n = 1; n < (numbers.at(-1) ?? 0); n++) {
    if (!numbers.includes(n) && !aside.some((name) => name.startsWith(`${n}.json`)))
      found('REVISION_MISSING', `revisions/${n}.json`, 'is missing');
  }
  const whole: UnitRecord[] = [];
  for (const n of numbers) {
    unit.signal.throwIfAborted();
    const record = await recordIn(unit, revisionFile(folder, n), n, ({ code, message }) =>
      found(code === 'RECORD_TOO_NEW' ? 'REVISION_TOO_NEW' : 'REVISION_DAMAGED', `revisions/${n}.json`, message),
    );
    if (record) whole.push(record);
  }
  return whole;
}

async function checkCopy(unit: CheckedUnit, newest: UnitRecord | undefined, found: Found): Promise<void> {
  if ((await unit.port.facts(recordOf(unit.folder))) === null) {
    found('UNIT_JSON_DAMAGED', 'unit.json', 'is missing');
    return;
  }
  const copy = await recordIn(unit, recordOf(unit.folder), undefined, ({ code, message }) =>
    found(code === 'RECORD_TOO_NEW' ? 'REVISION_TOO_NEW' : 'UNIT_JSON_DAMAGED', 'unit.json', message),
  );
  if (copy && newest && JSON.stringify(copy) !== JSON.stringify(newest))
    found('UNIT_JSON_OLD', 'unit.json', `is revision ${copy.revision}, not the newest whole one, ${newest.revision}`);
}

async function checkOriginals(unit: CheckedUnit, whole: readonly UnitRecord[], found: Found): Promise<void> {
  const { port, folder, signal } = unit;
  const names = await namesIn(port, photosOf(folder));
  judgeStrange(
    names.filter((name) => originalOfName(name) === null),
    'photos',
    found,
  );
  const spokenOf = new Set(whole.flatMap(({ photos }) => photos.map(originalPath)));
  for (const name of names) {
    const expected = originalOfName(name);
    if (!expected) continue;
    signal.throwIfAborted();
    const { sha256 } = await checksumOf(port.readParts(path.join(photosOf(folder), name)));
    const place = `photos/${name}`;
    if (sha256 !== expected.sha256)
      found('ORIGINAL_DAMAGED', place, `has the checksum ${sha256}, not that of its name`);
    if (!spokenOf.has(place)) found('ORIGINAL_UNUSED', place, 'is spoken of by no revision');
  }
  for (const place of spokenOf) {
    if (!names.includes(path.basename(place))) found('ORIGINAL_MISSING', place, 'is missing');
  }
}

async function checkLock({ port, folder }: CheckedUnit, found: Found): Promise<void> {
  const file = path.join(folder, 'lock');
  if ((await port.facts(file)) === null) return;
  let mark: ProcessMark;
  try {
    mark = JSON.parse(new TextDecoder().decode(await port.readFile(file))) as ProcessMark;
  } catch {
    found('LOCK_LEFT', 'lock', 'cannot be read');
    return;
  }
  if (await hasEnded(mark)) found('LOCK_LEFT', 'lock', `was left by process ${mark.pid}, which has ended`);
}

/**
 * Everything about a unit that is not as it should be: each revision, the copy of the newest, each original by its
 * checksum, what no revision speaks of, what was left behind. Changes nothing.
 *
 * @param book  the book's folder, which places are told from
 * @rule BK20
 */
export async function checkUnit(book: string, unit: CheckedUnit): Promise<Finding[]> {
  const findings: Finding[] = [];
  const inBook = path.relative(book, unit.folder).split(path.sep).join('/');
  const found: Found = (code, place, message) => findings.push(finding(unit.id, code, `${inBook}/${place}`, message));
  const whole = await checkRevisions(unit, found);
  const isNewer = findings.some(({ level }) => level === 'newer');
  await checkCopy(unit, isNewer ? undefined : whole.at(-1), found);
  if (whole.length === 0 && !isNewer) found('UNIT_UNREADABLE', 'revisions', 'holds no revision that is whole');
  await checkOriginals(unit, whole, found);
  await checkLock(unit, found);
  const others = (await unit.port.list(unit.folder)).filter((name) => !known.includes(name));
  judgeStrange(others, '', found);
  return findings;
}
