import { withoutKey } from '../base/without-key';
import type { LightKind } from '../contract/light';
import type { UnitPhoto, UnitReading, UnitRecord, UnitTrial, UnitWindow } from '../contract/unit-record';
import { askedWrongly, listOfNames } from './book-errors';
import { mirroredTrial } from './mirrored-trial';

function assertNew(what: 'window' | 'trial', name: string, items: readonly { readonly name: string }[]): void {
  if (!items.some((item) => item.name === name)) return;
  const message = `there is a ${what} ${JSON.stringify(name)} already`;
  throw askedWrongly('NAME_TAKEN', message, 'Give it another name.');
}

/** The item of this name. @throws AppError WINDOW_UNKNOWN, TRIAL_UNKNOWN, PART_UNKNOWN  with the names that there are */
export function namedItem<T extends { readonly name: string }>(
  what: 'window' | 'trial' | 'part',
  name: string,
  items: readonly T[],
): T {
  const found = items.find((item) => item.name === name);
  if (found) return found;
  const message = `the unit has no ${what} ${JSON.stringify(name)}`;
  const remedy = `Its ${what}s: ${listOfNames(items.map((item) => item.name))}.`;
  throw askedWrongly(`${what.toUpperCase()}_UNKNOWN`, message, remedy);
}

/** With one window more. @throws AppError NAME_TAKEN @rule BK8 */
export function addWindow(record: UnitRecord, window: UnitWindow): UnitRecord {
  assertNew('window', window.name, record.windows);
  return { ...record, windows: [...record.windows, window] };
}

/**
 * With one photo more; the same photo for the same purpose again takes the place of the first.
 *
 * @throws AppError TRIAL_UNKNOWN
 * @rule BK8
 */
export function addPhoto(record: UnitRecord, photo: UnitPhoto): UnitRecord {
  if (photo.trial !== undefined) namedItem('trial', photo.trial, record.trials);
  const isSame = (other: UnitPhoto): boolean =>
    other.sha256 === photo.sha256 && other.role === photo.role && other.trial === photo.trial;
  return { ...record, photos: [...record.photos.filter((other) => !isSame(other)), photo] };
}

export interface NewTrial {
  readonly name: string;
  /** Left out: that of the trial that it is begun from. */
  readonly light?: LightKind;
  /** Begun from this trial. */
  readonly like?: string;
  /** Its lamps mirrored left to right, to light this window. */
  readonly mirrorTo?: string;
}

/** With one trial more; what was planned of the one that it is begun from stays there. @throws AppError NAME_TAKEN, TRIAL_UNKNOWN, WINDOW_UNKNOWN, MIRROR_NEEDS_LIKE @rule BK8 */
export function addTrial(record: UnitRecord, { name, light, like, mirrorTo }: NewTrial): UnitRecord {
  assertNew('trial', name, record.trials);
  const model = like === undefined ? null : namedItem('trial', like, record.trials);
  if (mirrorTo !== undefined && model === null) {
    throw askedWrongly('MIRROR_NEEDS_LIKE', '--mirror-to needs a trial to mirror', 'Name it with --like TRIAL.');
  }
  const window = mirrorTo === undefined ? null : namedItem('window', mirrorTo, record.windows);
  const begun: UnitTrial = {
    ...(model === null ? { name } : { ...withoutKey(model, 'planned'), name, like: model.name }),
    ...(light === undefined ? {} : { light }),
  };
  const trial = window === null ? begun : mirroredTrial(begun, window);
  return { ...record, trials: [...record.trials, trial] };
}

/** With this trial as the one that stays in the unit. @throws AppError TRIAL_UNKNOWN @rule BK8 */
export function chooseTrial(record: UnitRecord, name: string, why?: string): UnitRecord {
  namedItem('trial', name, record.trials);
  return { ...record, chosen: { trial: name, ...(why === undefined ? {} : { why }) } };
}

/** With new readings in place of older ones of the same trial and window. @rule BK8 */
export function putReadings(record: UnitRecord, readings: readonly UnitReading[]): UnitRecord {
  const isReplaced = (old: UnitReading): boolean =>
    readings.some((one) => one.trial === old.trial && one.window === old.window);
  return { ...record, readings: [...record.readings.filter((old) => !isReplaced(old)), ...readings] };
}
