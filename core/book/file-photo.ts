import type { MeasureAsked } from '../contract/bench';
import type { LightKind } from '../contract/light';
import type { UnitPhoto, UnitReading, UnitRecord, UnitWindow } from '../contract/unit-record';
import { askedWrongly } from './book-errors';
import { addPhoto, addTrial, addWindow, putReadings } from './edits';
import { helperPhotoFor, type StatedOfPhoto } from './unit-series';

/** A photo as it goes into a record from the bench. */
export interface PhotoToFile {
  readonly original: Pick<UnitPhoto, 'sha256' | 'ending' | 'bytes' | 'name'> & StatedOfPhoto;
  readonly role: UnitPhoto['role'];
  readonly trial: string | null;
  readonly light: LightKind;
  /** The window that it shows, with its corners; null: it is read for no window by itself (a helper photo). */
  readonly shows: { readonly window: UnitWindow; readonly cornersPx: readonly (readonly [number, number])[] } | null;
  readonly reading: UnitReading | null;
}

/** @throws AppError FILED_WITHOUT_TRIAL, FILED_WITH_TRIAL */
export function assertRoleFits({ role, trial }: Pick<PhotoToFile, 'role' | 'trial'>): void {
  if (role === 'trial' && trial === null)
    throw askedWrongly('FILED_WITHOUT_TRIAL', 'the photo of a trial is filed without one', 'Name the trial it shows.');
  if (role === 'reference' && trial !== null)
    throw askedWrongly('FILED_WITH_TRIAL', 'a reference is for all trials', 'File it without a trial.');
}

const isHere = (photo: UnitPhoto, { original, role, trial }: PhotoToFile): boolean =>
  photo.sha256 === original.sha256 && photo.role === role && (photo.trial ?? null) === trial;

/** The trial is made where it is new; one that lights only some windows lights this one too. */
function withTrial(record: UnitRecord, { light }: PhotoToFile, name: string, window?: UnitWindow): UnitRecord {
  const known = record.trials.find((trial) => trial.name === name);
  if (!known) {
    const added = addTrial(record, { name });
    if (light === 'unknown') return added;
    return { ...added, trials: added.trials.map((trial) => (trial.name === name ? { ...trial, light } : trial)) };
  }
  if (!window || known.windows === undefined || known.windows.includes(window.name)) return record;
  const lit = { ...known, windows: [...known.windows, window.name] };
  return { ...record, trials: record.trials.map((trial) => (trial === known ? lit : trial)) };
}

/**
 * A record with a photo of the bench in it. What the record says already of its window stays as it is; a photo that is
 * there in this role keeps what is said of it, and has its corners in one window more.
 *
 * @rule BE17
 */
export function filePhoto(record: UnitRecord, filed: PhotoToFile): UnitRecord {
  assertRoleFits(filed);
  const { original, role, trial, light, shows, reading } = filed;
  const hasWindow = shows === null || record.windows.some(({ name }) => name === shows.window.name);
  const windowed = hasWindow ? record : addWindow(record, shows.window);
  const tried = trial === null ? windowed : withTrial(windowed, filed, trial, shows?.window);
  const there = record.photos.find((photo) => isHere(photo, filed));
  const corners = shows && {
    ...there?.corners,
    [shows.window.name]: shows.cornersPx.map(([column, row]): [number, number] => [column, row]),
  };
  const photo: UnitPhoto = {
    ...original,
    ...there,
    role,
    ...(trial === null ? {} : { trial }),
    ...(light === 'unknown' ? {} : { light }),
    ...(corners ? { corners } : {}),
  };
  const kept = addPhoto(tried, photo);
  return reading ? putReadings(kept, [reading]) : kept;
}

/** With a photo that another one is read with, unless the record reads that one with it already. @rule BE17 */
export function fileHelper(record: UnitRecord, filed: PhotoToFile): UnitRecord {
  const standing = helperPhotoFor(record, filed.role, filed.trial);
  return standing?.sha256 === filed.original.sha256 ? record : filePhoto(record, filed);
}

/** With the room and the distance that its photos were measured with, where the record does not say. @rule BE17 */
export function withPhotography(record: UnitRecord, { room, viewingDistanceMm }: MeasureAsked): UnitRecord {
  return { ...record, photography: { room, viewingDistanceMm, ...record.photography } };
}
