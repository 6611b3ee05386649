import type { MeasureRequest } from '../contract/measure';
import { requestOfSeries, type SeriesFile, type SeriesTrial, type SeriesWindow } from '../contract/series';
import type { PhotoRole, UnitLamp, UnitPhoto, UnitRecord, UnitTrial, UnitWindow } from '../contract/unit-record';
import { askedWrongly } from './book-errors';
import { namedItem } from './edits';

type SeriesPhoto = SeriesTrial['photos'][number];

/** Where an original lies, from the unit's folder. */
export function originalPath({ sha256, ending }: Pick<UnitPhoto, 'sha256' | 'ending'>): string {
  return `photos/${sha256}.${ending}`;
}

/** Only what is there: a series file knows no `undefined`. */
function present<T extends object>(fields: T): T {
  return Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined)) as T;
}

function photoOf(photo: UnitPhoto): SeriesPhoto {
  const { exposureS, fNumber, iso, encoding } = photo;
  return present({ file: originalPath(photo), exposureS, fNumber, iso, encoding });
}

const lastOf = (photos: readonly UnitPhoto[]): UnitPhoto | undefined => photos.at(-1);

/** The photo of a role that is for this trial alone, else the unit's; of several the last added. @rule BK13 */
export function helperPhotoFor(record: UnitRecord, role: PhotoRole, trial: string | null): UnitPhoto | undefined {
  const ofRole = record.photos.filter((photo) => photo.role === role);
  const own = lastOf(ofRole.filter((photo) => photo.trial !== undefined && photo.trial === trial));
  return own ?? lastOf(ofRole.filter((photo) => photo.trial === undefined));
}

function helperFor(record: UnitRecord, role: PhotoRole, trial: string | null): SeriesPhoto | undefined {
  const helper = helperPhotoFor(record, role, trial);
  return helper && photoOf(helper);
}

/** @param shots  of one arrangement, in the order in which they were added; the last one counts, or all as an exposure series */
function partsOf(record: UnitRecord, shots: readonly UnitPhoto[], trial: string | null): Omit<SeriesTrial, 'name'> {
  const photo = shots[shots.length - 1];
  return present({
    photos: shots.map(photoOf),
    light: photo.light ?? (trial === null ? 'filament' : namedItem('trial', trial, record.trials).light),
    lampOff: helperFor(record, 'lamp-off', trial),
    flatField: helperFor(record, 'flat-field', trial),
    printPhoto: helperFor(record, 'print-photo', trial),
    witness: photo.witness,
    corners: photo.corners,
  });
}

const windowsShown = ({ corners }: UnitPhoto): string =>
  Object.keys(corners ?? {})
    .sort()
    .join('\n');

/** The last photo, and those before it that show the same windows. */
function shotsAsLast(photos: readonly UnitPhoto[]): UnitPhoto[] {
  const last = lastOf(photos);
  return last ? photos.filter((photo) => windowsShown(photo) === windowsShown(last)) : [];
}

/** A lamp as a series file describes it: where it is and what is done with it, not what it is. */
function lampOf({ name, positionMm, tiltDeg, currentMa, on }: UnitLamp): NonNullable<SeriesTrial['lamps']>[number] {
  return present({ name, positionMm, tiltDeg, currentMa, on });
}

function trialOf(record: UnitRecord, trial: UnitTrial): SeriesTrial[] {
  const shots = shotsAsLast(record.photos.filter((photo) => photo.role === 'trial' && photo.trial === trial.name));
  if (shots.length === 0) return [];
  const lamps = trial.lamps?.map(lampOf);
  return [{ name: trial.name, ...partsOf(record, shots, trial.name), ...(lamps ? { lamps } : {}) }];
}

/** A series file's window has no notes. */
function windowOf(given: UnitWindow): SeriesWindow {
  const window = { ...given };
  delete window.notes;
  return window;
}

/**
 * A unit as a series file: its windows, the reference, and the trials that have a photo, each with its photos of the windows
 * that its last one shows.
 *
 * @param only  a trial; left out: all
 * @throws AppError UNIT_WITHOUT_WINDOW, TRIAL_UNKNOWN, TRIAL_WITHOUT_PHOTO, UNIT_WITHOUT_PHOTO
 * @rule BK13
 */
export function seriesOfUnit(record: UnitRecord, only?: string): SeriesFile {
  const name = JSON.stringify(record.name);
  if (record.windows.length === 0) {
    const remedy = "Add one with 'evendial unit add-window UNIT NAME --size 92x18'.";
    throw askedWrongly('UNIT_WITHOUT_WINDOW', `${name} has no window to measure`, remedy);
  }
  const chosen = only === undefined ? record.trials : [namedItem('trial', only, record.trials)];
  // The window of a trial that lights none was taken out of the unit.
  const lit = chosen.filter(({ windows }) => windows === undefined || windows.length > 0);
  const trials = lit.flatMap((trial) => trialOf(record, trial));
  const remedy = "Add one with 'evendial unit add-photo UNIT FILE --role trial:NAME'.";
  if (only !== undefined && trials.length === 0)
    throw askedWrongly('TRIAL_WITHOUT_PHOTO', `the trial ${JSON.stringify(only)} has no photo`, remedy);
  const reference = shotsAsLast(record.photos.filter(({ role }) => role === 'reference'));
  if (trials.length === 0 && reference.length === 0)
    throw askedWrongly('UNIT_WITHOUT_PHOTO', `${name} has no photo of a trial or a reference`, remedy);
  return {
    format: 'evendial-series',
    version: 1,
    ...present({ ...record.photography }),
    windows: record.windows.map(windowOf),
    ...(reference.length > 0 ? { reference: partsOf(record, reference, null) } : {}),
    trials,
  };
}

/**
 * What the engine is to measure of a unit; a trial that lights only some windows is measured in these alone. Of several
 * photos of one trial the last counts, unless they are an exposure series.
 *
 * @param resolvePath  turns `photos/CHECKSUM.ENDING` into what the decoder opens
 * @throws AppError as `seriesOfUnit`
 * @rule BK13
 */
export function requestOfUnit(
  record: UnitRecord,
  only: string | undefined,
  resolvePath: (file: string) => string,
): MeasureRequest {
  const request = requestOfSeries(seriesOfUnit(record, only), resolvePath);
  const jobs = request.jobs.map((job) => {
    const lit = record.trials.find(({ name }) => job.role === 'trial' && name === job.name)?.windows;
    const windows = job.windows.filter(({ spec }) => lit === undefined || lit.includes(spec.name));
    const placed = windows.length === 0 ? job : { ...job, windows };
    const last = job.bracket?.at(-1);
    return last ? { ...placed, photo: last, isPerhapsBracket: true as const } : placed;
  });
  return { ...request, jobs };
}
