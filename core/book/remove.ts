import { withoutKey } from '../base/without-key';
import type { UnitPhoto, UnitRecord, UnitTrial } from '../contract/unit-record';
import { askedWrongly } from './book-errors';
import { namedItem } from './edits';

/** A trial that lit only this window stays, and lights none; what was forecast of this window goes with it. */
function trialWithoutWindow(trial: UnitTrial, window: string): UnitTrial {
  const { windows, mirroredTo, planned } = trial;
  const unmirrored = mirroredTo === window ? withoutKey(trial, 'mirroredTo') : trial;
  const rest = planned?.window === window ? withoutKey(unmirrored, 'planned') : unmirrored;
  return windows === undefined ? rest : { ...rest, windows: windows.filter((name) => name !== window) };
}

/** Nothing is left of a photo that showed this window alone: without corners it would be taken for one of all windows. */
function photoWithoutWindow(photo: UnitPhoto, window: string): UnitPhoto[] {
  if (photo.corners?.[window] === undefined) return [photo];
  const corners = withoutKey(photo.corners, window);
  return Object.keys(corners).length === 0 ? [] : [{ ...photo, corners }];
}

/**
 * Without a window, its readings, and what spoke of it: corners, photos of it alone, trials' lists.
 *
 * @throws AppError WINDOW_UNKNOWN
 * @rule BK27
 */
export function removeWindow(record: UnitRecord, name: string): UnitRecord {
  namedItem('window', name, record.windows);
  return {
    ...record,
    windows: record.windows.filter((window) => window.name !== name),
    trials: record.trials.map((trial) => trialWithoutWindow(trial, name)),
    photos: record.photos.flatMap((photo) => photoWithoutWindow(photo, name)),
    readings: record.readings.filter(({ window }) => window !== name),
  };
}

/** What was forecast from the trial that goes, and begun like it, stays as it is. */
function trialWithoutOther(trial: UnitTrial, gone: string): UnitTrial {
  const rest = trial.like === gone ? withoutKey(trial, 'like') : trial;
  return rest.planned?.from === gone ? { ...rest, planned: withoutKey(rest.planned, 'from') } : rest;
}

/**
 * Without a trial, its photos and those that were only for it, its readings, and its being chosen.
 *
 * @throws AppError TRIAL_UNKNOWN
 * @rule BK27
 */
export function removeTrial(record: UnitRecord, name: string): UnitRecord {
  namedItem('trial', name, record.trials);
  const rest = record.chosen?.trial === name ? withoutKey(record, 'chosen') : record;
  return {
    ...rest,
    trials: record.trials.filter((trial) => trial.name !== name).map((trial) => trialWithoutOther(trial, name)),
    photos: record.photos.filter(({ trial }) => trial !== name),
    readings: record.readings.filter(({ trial }) => trial !== name),
  };
}

/** @throws AppError PART_UNKNOWN @rule BK27 */
export function removePart(record: UnitRecord, name: string): UnitRecord {
  namedItem('part', name, record.parts);
  return { ...record, parts: record.parts.filter((part) => part.name !== name) };
}

/**
 * Without a photo in one of its roles, and without the readings that came from it in that role.
 *
 * @param trial  as the photo's entry has it; null: none
 * @throws AppError PHOTO_UNKNOWN
 * @rule BK27
 */
export function removePhoto(
  record: UnitRecord,
  { sha256, role, trial }: { readonly sha256: string; readonly role: UnitPhoto['role']; readonly trial: string | null },
): UnitRecord {
  const isIt = (photo: UnitPhoto): boolean =>
    photo.sha256 === sha256 && photo.role === role && (photo.trial ?? null) === trial;
  if (!record.photos.some(isIt)) {
    const message = 'the unit has no such photo in this place any more';
    throw askedWrongly('PHOTO_UNKNOWN', message, 'Look at the unit as it is now.');
  }
  const isRead = role === 'trial' || role === 'reference';
  return {
    ...record,
    photos: record.photos.filter((photo) => !isIt(photo)),
    readings: record.readings.filter((one) => !(isRead && one.photo === sha256 && one.trial === trial)),
  };
}
