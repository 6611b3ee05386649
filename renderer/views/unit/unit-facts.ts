import type {
  PhotoRole,
  UnitPhoto,
  UnitReading,
  UnitRecord,
  UnitTrial,
  UnitWindow,
} from '../../../core/contract/unit-record';

/** Whether a trial lights a window: one that names none lights all. */
const lights = ({ windows }: UnitTrial, window: string): boolean => windows === undefined || windows.includes(window);

/** Whether a photo shows a window: one without corners is searched for all of them. */
const shows = ({ corners }: UnitPhoto, window: string): boolean =>
  corners === undefined || Object.keys(corners).length === 0 || Object.hasOwn(corners, window);

/** Trials of a window, newest first. */
export function trialsOf(record: UnitRecord, window: string): UnitTrial[] {
  return record.trials.filter((trial) => lights(trial, window)).reverse();
}

/** Of several photos of a trial the last added stands for it, as when the unit is measured. */
export function trialPhoto(record: UnitRecord, window: string, trial: string): UnitPhoto | null {
  const photos = record.photos.filter((photo) => photo.role === 'trial' && photo.trial === trial);
  return photos.filter((photo) => shows(photo, window)).at(-1) ?? null;
}

export function referencePhoto(record: UnitRecord, window: string): UnitPhoto | null {
  return record.photos.filter((photo) => photo.role === 'reference' && shows(photo, window)).at(-1) ?? null;
}

/** Photos that belong to a window without being its reference or a trial, in the order of their roles. */
export function otherPhotos(record: UnitRecord, window: string): UnitPhoto[] {
  const order: readonly PhotoRole[] = ['lamp-off', 'flat-field', 'print-photo', 'other'];
  return order.flatMap((role) => record.photos.filter((photo) => photo.role === role && shows(photo, window)));
}

/** @param trial  null: the reference */
export function readingOf(record: UnitRecord, window: string, trial: string | null): UnitReading | null {
  return record.readings.filter((reading) => reading.window === window && reading.trial === trial).at(-1) ?? null;
}

/** What a row of the book shows: the chosen trial, else the newest one with a photo. */
export function shownTrial(record: UnitRecord, window: string): UnitTrial | null {
  const trials = trialsOf(record, window);
  const chosen = trials.find(({ name }) => name === record.chosen?.trial);
  return chosen ?? trials.find(({ name }) => trialPhoto(record, window, name) !== null) ?? null;
}

const shapeWords = { rectangle: '', ellipse: 'ellipse', polygon: 'polygon' } as const;

/** `92 × 18 mm, ellipse`. */
export function sizeWords({ widthMm, heightMm, outline }: UnitWindow): string {
  const shape = shapeWords[outline?.kind ?? 'rectangle'];
  return `${widthMm} × ${heightMm} mm${shape === '' ? '' : `, ${shape}`}`;
}

/** What a trial is, in a line under its name: `2 lamps 10 mm behind, sanded; tracing paper`. */
export function trialWords({ lamps = [], diffuser, shade }: UnitTrial): string {
  const depths = [...new Set(lamps.flatMap(({ positionMm }) => (positionMm ? [positionMm[2]] : [])))];
  const behind = depths.length === 1 ? ` ${depths[0]} mm behind` : '';
  const counted = lamps.length === 0 ? '' : `${lamps.length === 1 ? '1 lamp' : `${lamps.length} lamps`}${behind}`;
  const isSaid = (part: string | undefined): part is string => part !== undefined && part !== '' && part !== 'none';
  return [counted, diffuser, shade].filter(isSaid).join('; ');
}

const months = 'January February March April May June July August September October November December'.split(' ');

/** `today, 21:42`, `yesterday, 9:05`, `3 November`, `3 November 2025`, in the time of this place. */
export function whenWords(instant: string, now: Date): string {
  const then = new Date(instant);
  const clock = `${then.getHours()}:${String(then.getMinutes()).padStart(2, '0')}`;
  const dayOf = (date: Date): number => Math.floor(new Date(date).setHours(12, 0, 0, 0) / 86_400_000);
  const ago = dayOf(now) - dayOf(then);
  if (ago === 0) return `today, ${clock}`;
  if (ago === 1) return `yesterday, ${clock}`;
  const day = `${then.getDate()} ${months[then.getMonth()]}`;
  return then.getFullYear() === now.getFullYear() ? day : `${day} ${then.getFullYear()}`;
}

/** A name that is not taken: `Trial 7`. */
export function nextTrialName(record: UnitRecord): string {
  const taken = new Set(record.trials.map(({ name }) => name));
  let number = record.trials.length + 1;
  while (taken.has(`Trial ${number}`)) number++;
  return `Trial ${number}`;
}
