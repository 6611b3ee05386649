import type { UnitRecord } from '../contract/unit-record';

function wordsIn(value: unknown): string[] {
  if (typeof value === 'string') return [value];
  if (typeof value === 'number') return [String(value)];
  if (Array.isArray(value)) return value.flatMap(wordsIn);
  if (typeof value === 'object' && value !== null)
    return Object.entries(value).flatMap(([key, inner]) => (isMachineKey(key) ? [] : wordsIn(inner)));
  return [];
}

/** Values that no person looks for. */
const machineKeys = ['format', 'version', 'savedAt', 'undo', 'redo', 'restores', 'sha256', 'photo', 'ending', 'bytes'];
const isMachineKey = (key: string): boolean =>
  [...machineKeys, 'corners', 'pointsMm', 'cutMm', 'gates', 'program', 'measuredAt'].includes(key);

/** Letters without their capitals and accents, so that either way of writing finds the other. */
export function foldedText(text: string): string {
  return text.normalize('NFKD').replace(/\p{M}/gu, '').toLowerCase();
}

/** Everything that a person wrote into a record, to be searched. @rule BK10 */
export function searchText(record: UnitRecord): string {
  return foldedText([...new Set(wordsIn(record))].join('\n'));
}

/** Whether every word of the question stands somewhere in the text. @param text of `searchText` @rule BK10 */
export function isFound(text: string, question: string): boolean {
  return foldedText(question)
    .split(/\s+/)
    .filter((word) => word !== '')
    .every((word) => text.includes(word));
}
