import type { UnitRecord } from '../contract/unit-record';

/** What a person may have written about people, and where things were bought. */
const personalKeys = ['owner', 'serialNumber', 'notes', 'source'];
/** Names that the record's parts know each other by. */
const namingKeys = ['name', 'trial', 'window', 'windows', 'lamps', 'like', 'mirroredTo', 'from'];
/** Written by the program, or chosen from a list: nobody's words, though they may hold the letters of a name. */
const writtenKeys = [
  ...['format', 'id', 'savedAt', 'sha256', 'ending', 'role', 'light', 'encoding', 'print', 'room'],
  ...['photo', 'measuredAt', 'program', 'reason', 'evennessWords', 'redPrintWords', 'colourWords', 'code', 'level'],
  ...['kind', 'wiring', 'referenceLamp', 'path', 'glass', 'recheckOn'],
];
const keptKeys = new Set([...namingKeys, ...writtenKeys]);

/** Shorter words would be found inside others. */
const leastWordLength = 3;

function withoutWords(value: unknown, isPersonal: (text: string) => boolean, key = ''): unknown {
  if (typeof value === 'string') return !keptKeys.has(key) && isPersonal(value) ? undefined : value;
  if (Array.isArray(value)) return value.map((item: unknown) => withoutWords(item, isPersonal, key));
  if (typeof value !== 'object' || value === null) return value;
  const entries = Object.entries(value)
    .filter(([inner]) => !personalKeys.includes(inner))
    .map(([inner, given]) => [inner, withoutWords(given, isPersonal, inner)] as const)
    .filter(([, given]) => given !== undefined);
  return Object.fromEntries(entries);
}

/**
 * A record without personal data, for a sheet or an archive that is given away: no owner, serial number, notes, sources of
 * parts, and no text in which the owner's name or the serial number stands. Names of the unit, its windows, trials, lamps
 * and photos stay: without them a record cannot be read. So does what the program wrote or a list offered.
 *
 * @source our own choice: what may be about a person is left out whole
 * @rule BK26, RS10
 */
export function withoutPersonal(record: UnitRecord): UnitRecord {
  const words = [record.owner, record.serialNumber]
    .flatMap((word) => (word === undefined ? [] : [word.toLowerCase()]))
    .filter((word) => word.length >= leastWordLength);
  const isPersonal = (text: string): boolean => words.some((word) => text.toLowerCase().includes(word));
  return withoutWords(record, isPersonal) as UnitRecord;
}
