import type { PhotoId } from '../../core/contract/bench';
import type { PhotoRole, UnitRecord } from '../../core/contract/unit-record';
import type { PhotoOnBench } from './bench-state';
import type { Filing } from './filings';
import { mayBeOneWindow } from './same-window';

/** What a photo of the bench is to become in a unit, as the user may correct it. */
export interface FilingRow {
  readonly photo: PhotoId;
  /** Whether it is filed at all. */
  readonly isWanted: boolean;
  readonly role: PhotoRole;
  /** Of a trial. */
  readonly trial: string;
}

/** Names that a camera gives by itself say nothing about a trial. */
const cameraName = /^(img|dsc[fn]?|pxl|mvimg|p\d|sam|image|photo|screenshot)?[\s_-]*\d[\d\s_().-]*$/i;

const namedRoles: readonly (readonly [RegExp, PhotoRole])[] = [
  [/lamps?[\s_-]?off|unlit|^black\b|[\s_-]off\b/i, 'lamp-off'],
  [/flat[\s_-]?field|\bflat\b/i, 'flat-field'],
  [/print[\s_-]?photo|room[\s_-]?lit/i, 'print-photo'],
  [/filament|reference|\bref\b/i, 'reference'],
];

/** Of the lamps, or of the room: a lit window tells which. */
const darkNamed = /^dark\b|[\s_-]dark\b/i;

const stemOf = (name: string): string => name.replace(/\.[a-z0-9]{1,5}$/i, '');

/** Of a photo that shows hardly any light: most likely the one with the lamps off. */
function isDark({ status, reading }: PhotoOnBench): boolean {
  if (status.kind === 'failed') return ['WINDOW_NOT_FOUND', 'PHOTO_TOO_DARK'].includes(status.error.code);
  return reading?.gates.some(({ code, level }) => code === 'PHOTO_TOO_DARK' && level === 'refuse') ?? false;
}

/** The role that a photo has on the bench already, or that it looks like. */
export function proposedRole(photo: PhotoOnBench, photos: readonly PhotoOnBench[]): PhotoRole {
  const serves = (test: (other: PhotoOnBench) => boolean): boolean =>
    photos.some((other) => other.id !== photo.id && test(other));
  if (serves(({ settings }) => settings.reference === photo.id)) return 'reference';
  if (serves(({ settings }) => settings.helpers.lampOff === photo.id)) return 'lamp-off';
  if (serves(({ settings }) => settings.helpers.flatField === photo.id)) return 'flat-field';
  if (serves(({ settings }) => settings.helpers.printPhoto === photo.id)) return 'print-photo';
  const stem = stemOf(photo.name);
  const isLit = photo.reading !== null && photo.reading.evenness.score.value !== null;
  if (darkNamed.test(stem) && !isLit) return 'lamp-off';
  const named = namedRoles.find(([pattern]) => pattern.test(stem));
  if (named) return named[1];
  if (photo.settings.light === 'filament') return 'reference';
  return isDark(photo) ? 'lamp-off' : 'trial';
}

/** Whether a photo is read as one of another window than the photo in view. */
export function showsAnotherWindow({ reading }: PhotoOnBench, inView: PhotoOnBench | null): boolean {
  return reading !== null && inView !== null && inView.reading !== null && !mayBeOneWindow(reading, inView.reading);
}

/** A name that nothing has yet: `Trial 7`, or with a number after it. */
function freeName(wanted: string | null, taken: ReadonlySet<string>, number: number): string {
  if (wanted !== null && !taken.has(wanted)) return wanted;
  const start = wanted ?? 'Trial';
  let next = wanted === null ? number : 2;
  while (taken.has(`${start} ${next}`)) next++;
  return `${start} ${next}`;
}

/** What a file is called, as the name of a trial: `warm-white_bare.jpg` is `warm white bare`; null for a camera's number. */
export function trialNameOf(fileName: string): string | null {
  const stem = stemOf(fileName);
  const words = stem.replace(/[_-]+/g, ' ').replace(/\s+/g, ' ').trim();
  return words === '' || cameraName.test(stem) ? null : words;
}

/** What the others are read with stands first. */
const roleOrder: readonly PhotoRole[] = ['reference', 'lamp-off', 'flat-field', 'print-photo', 'trial', 'other'];
const byName = new Intl.Collator('en', { numeric: true });

/**
 * What each photo of the bench may become: as it lies in the unit already, as it is used on the bench, as its name or its
 * darkness says. In the order of roles, then of names: a camera numbers its photos as they are taken.
 *
 * @param filingOf  what a photo is in the book already, and whether it is read differently since
 * @param inView    photos are filed into one window: those that show another one than this photo are not proposed
 */
export function proposeFiling(
  photos: readonly PhotoOnBench[],
  record: UnitRecord | null,
  filingOf: (photo: PhotoId) => (Filing & { readonly isChanged: boolean }) | null,
  inView: PhotoOnBench | null,
): FilingRow[] {
  const taken = new Set(record?.trials.map(({ name }) => name) ?? []);
  let number = taken.size + 1;
  const roleOf = new Map(photos.map((photo) => [photo.id, filingOf(photo.id)?.role ?? proposedRole(photo, photos)]));
  const rankOf = ({ id }: PhotoOnBench): number => roleOrder.indexOf(roleOf.get(id) ?? 'other');
  const sorted = [...photos].sort((a, b) => rankOf(a) - rankOf(b) || byName.compare(a.name, b.name));
  return sorted.map((photo): FilingRow => {
    const known = filingOf(photo.id);
    if (known && known.unit === record?.id) {
      return { photo: photo.id, isWanted: known.isChanged, role: known.role, trial: known.trial ?? '' };
    }
    const role = roleOf.get(photo.id) ?? 'other';
    const trial = role === 'trial' ? freeName(trialNameOf(photo.name), taken, number) : '';
    if (role === 'trial') {
      taken.add(trial);
      number++;
    }
    // What lies in another unit is that unit's, unless somebody says otherwise.
    const isElsewhere = known !== null && known.unit !== record?.id;
    // Of a photo in which no window was found there is nothing to keep but the file.
    const isOfWindow = role === 'trial' || role === 'reference';
    const isReadable = photo.status.kind !== 'failed' || !isOfWindow;
    const isOfAnother = isOfWindow && showsAnotherWindow(photo, inView);
    const isWanted = isReadable && !isElsewhere && !isOfAnother;
    return { photo: photo.id, isWanted, role, trial };
  });
}

/** Why a row cannot be filed as it stands; null when it can. */
export function problemOfRow(row: FilingRow, rows: readonly FilingRow[], photo: PhotoOnBench): string | null {
  if (!row.isWanted) return null;
  if (row.role === 'trial' && row.trial.trim() === '') return 'Give the trial a name.';
  if (photo.status.kind === 'failed' && (row.role === 'trial' || row.role === 'reference'))
    return photo.status.error.message;
  const isSecond = (other: FilingRow): boolean => other.isWanted && other !== row && other.role === 'reference';
  if (row.role === 'reference' && rows.some(isSecond)) return 'Only one photo can be the reference.';
  return null;
}

/** The photos that every trial of the rows is read with; null where no row names one. */
export function helpersOf(rows: readonly FilingRow[]): {
  readonly reference: PhotoId | null;
  readonly lampOff: PhotoId | null;
  readonly flatField: PhotoId | null;
  readonly printPhoto: PhotoId | null;
} {
  const last = (role: PhotoRole): PhotoId | null =>
    rows.filter((row) => row.isWanted && row.role === role).at(-1)?.photo ?? null;
  return {
    reference: last('reference'),
    lampOff: last('lamp-off'),
    flatField: last('flat-field'),
    printPhoto: last('print-photo'),
  };
}
