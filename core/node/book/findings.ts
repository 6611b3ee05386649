/** How bad a finding is: `damage` is something saved that is not whole any more; a `note` is untidy and harmless. */
export type FindingLevel = 'damage' | 'newer' | 'note';

export const findingCodes = [
  'REVISION_DAMAGED',
  'REVISION_MISSING',
  'REVISION_TOO_NEW',
  'UNIT_JSON_OLD',
  'UNIT_JSON_DAMAGED',
  'UNIT_UNREADABLE',
  'ORIGINAL_DAMAGED',
  'ORIGINAL_MISSING',
  'ORIGINAL_UNUSED',
  'LOCK_LEFT',
  'UNFINISHED_LEFT',
  'FILE_UNKNOWN',
] as const;
export type FindingCode = (typeof findingCodes)[number];

export interface Finding {
  /** null: the book itself. */
  readonly unit: string | null;
  readonly level: FindingLevel;
  readonly code: FindingCode;
  /** From the book's folder, with forward slashes. */
  readonly place: string;
  readonly message: string;
  readonly remedy: string;
  /** What the repair did about it; left out: nothing. */
  readonly repaired?: string;
}

const levels: Partial<Record<FindingCode, FindingLevel>> = {
  REVISION_DAMAGED: 'damage',
  REVISION_MISSING: 'damage',
  REVISION_TOO_NEW: 'newer',
  UNIT_JSON_DAMAGED: 'damage',
  UNIT_UNREADABLE: 'damage',
  ORIGINAL_DAMAGED: 'damage',
  ORIGINAL_MISSING: 'damage',
};

const repairs = "'evendial unit check --repair' puts it in order.";
const fromCopy = 'Take it from a copy of the book or an exported unit: same name, same folder.';
const remedies: Readonly<Record<FindingCode, string>> = {
  REVISION_DAMAGED:
    "'evendial unit check --repair' puts it aside into the folder damaged and goes on from what is whole.",
  REVISION_MISSING: fromCopy,
  REVISION_TOO_NEW: 'Use a newer version of this program. The record was not touched.',
  UNIT_JSON_OLD: repairs,
  UNIT_JSON_DAMAGED: repairs,
  UNIT_UNREADABLE:
    'Take its folder from a copy of the book, or import an exported file of it into another book. Photos that are whole lie in its folder photos.',
  ORIGINAL_DAMAGED: `${fromCopy} The damaged one stays until you remove it.`,
  ORIGINAL_MISSING: fromCopy,
  ORIGINAL_UNUSED: 'No revision speaks of it; it is kept. Add it to a unit, or remove it yourself.',
  LOCK_LEFT: repairs,
  UNFINISHED_LEFT: repairs,
  FILE_UNKNOWN: 'It is not of the book, and left alone.',
};

/** A finding with the level and the remedy of its code. */
export function finding(unit: string | null, code: FindingCode, place: string, message: string): Finding {
  return { unit, level: levels[code] ?? 'note', code, place, message, remedy: remedies[code] };
}
