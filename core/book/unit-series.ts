import type { MeasureJob, MeasureRequest } from '../contract/measure';
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

/** What a record states of a photo, since its file does not tell it, or not truly. */
export type StatedOfPhoto = Pick<UnitPhoto, 'exposureS' | 'fNumber' | 'iso' | 'encoding'>;

export function statedOf({ exposureS, fNumber, iso, encoding }: UnitPhoto): StatedOfPhoto {
  return present({ exposureS, fNumber, iso, encoding });
}

function photoOf(photo: UnitPhoto): SeriesPhoto {
  return { file: originalPath(photo), ...statedOf(photo) };
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

/** Photos of one arrangement that show the same windows, in the order in which they were added, and what they are measured in. */
interface Shots {
  readonly photos: readonly UnitPhoto[];
  /** Of the windows that they show, those that no newer photo shows. */
  readonly windows: readonly string[];
}

/** The last photo counts, or all as an exposure series. */
function partsOf(record: UnitRecord, { photos, windows }: Shots, trial: string | null): Omit<SeriesTrial, 'name'> {
  const photo = photos[photos.length - 1];
  const placed = Object.entries(photo.corners ?? {}).filter(([name]) => windows.includes(name));
  return present({
    photos: photos.map(photoOf),
    light: photo.light ?? (trial === null ? 'filament' : namedItem('trial', trial, record.trials).light),
    lampOff: helperFor(record, 'lamp-off', trial),
    flatField: helperFor(record, 'flat-field', trial),
    printPhoto: helperFor(record, 'print-photo', trial),
    witness: photo.witness,
    corners: placed.length > 0 ? Object.fromEntries(placed) : undefined,
  });
}

const namesShown = ({ corners }: UnitPhoto): string[] => Object.keys(corners ?? {}).sort();
const isOfSameWindows = (one: UnitPhoto, other: UnitPhoto): boolean =>
  namesShown(one).join('\n') === namesShown(other).join('\n');

/**
 * The photos of one arrangement by the windows that they show, each window in the newest that shows it; in the order of the
 * windows. In a photo without corners every window is looked for: it counts as the newest alone, since of what it shows
 * beside placed ones nothing is known.
 *
 * @param windows  names of those that are to be measured
 */
function shotsByWindow(photos: readonly UnitPhoto[], windows: readonly string[]): Shots[] {
  const found: Shots[] = [];
  for (const newest of [...photos].reverse()) {
    const shown = namesShown(newest);
    if (shown.length === 0 && found.length > 0) continue;
    const isNew = (name: string): boolean => !found.some((newer) => newer.windows.includes(name));
    const own = windows.filter((name) => (shown.length === 0 || shown.includes(name)) && isNew(name));
    if (own.length === 0) continue;
    found.push({ photos: photos.filter((photo) => isOfSameWindows(photo, newest)), windows: own });
  }
  return found.sort((a, b) => windows.indexOf(a.windows[0]) - windows.indexOf(b.windows[0]));
}

/** A lamp as a series file describes it: where it is and what is done with it, not what it is. */
function lampOf({ name, positionMm, tiltDeg, currentMa, on }: UnitLamp): NonNullable<SeriesTrial['lamps']>[number] {
  return present({ name, positionMm, tiltDeg, currentMa, on });
}

/** A trial as it is measured: once, or once for each of its photos that shows other windows. */
function trialParts(record: UnitRecord, trial: UnitTrial): SeriesTrial[] {
  const own = record.photos.filter((photo) => photo.role === 'trial' && photo.trial === trial.name);
  const lit = record.windows.map(({ name }) => name).filter((name) => trial.windows?.includes(name) ?? true);
  const lamps = trial.lamps?.map(lampOf);
  return shotsByWindow(own, lit).map((shots) => ({
    name: trial.name,
    ...partsOf(record, shots, trial.name),
    ...(lamps ? { lamps } : {}),
  }));
}

/** A series file's window has no notes. */
function windowOf(given: UnitWindow): SeriesWindow {
  const window = { ...given };
  delete window.notes;
  return window;
}

/** A unit's arrangements as they are measured: once, or once for each of their photos that shows other windows. */
interface Arrangements {
  readonly references: readonly Omit<SeriesTrial, 'name'>[];
  readonly trials: readonly (readonly SeriesTrial[])[];
}

function arrangementsOf(record: UnitRecord, trials: readonly UnitTrial[]): Arrangements {
  const windows = record.windows.map(({ name }) => name);
  const ofReference = record.photos.filter(({ role }) => role === 'reference');
  return {
    references: shotsByWindow(ofReference, windows).map((shots) => partsOf(record, shots, null)),
    trials: trials.map((trial) => trialParts(record, trial)),
  };
}

/** How many series files it takes to measure them; 0: no photo of theirs shows a window that is lit. */
const filesFor = ({ references, trials }: Arrangements): number =>
  Math.max(references.length, ...trials.map((parts) => parts.length));

/** Whether there is anything to measure: a record may have no window yet, or photos of none that is lit. @rule BK13 */
export function isMeasurable(record: UnitRecord): boolean {
  return record.windows.length > 0 && filesFor(arrangementsOf(record, record.trials)) > 0;
}

/**
 * A unit as series files: all that has to be measured, each trial once in each. One is enough where every trial shows its
 * windows in one photo; close-ups of further windows are in further ones.
 *
 * @throws AppError as `seriesOfUnit`
 */
function seriesFiles(record: UnitRecord, only?: string): SeriesFile[] {
  const name = JSON.stringify(record.name);
  if (record.windows.length === 0) {
    const remedy = "Add one with 'evendial unit add-window UNIT NAME --size 92x18'.";
    throw askedWrongly('UNIT_WITHOUT_WINDOW', `${name} has no window to measure`, remedy);
  }
  const chosen = only === undefined ? record.trials : [namedItem('trial', only, record.trials)];
  const { references, trials } = arrangementsOf(record, chosen);
  const remedy = "Add one with 'evendial unit add-photo UNIT FILE --role trial:NAME'.";
  if (only !== undefined && trials[0].length === 0) {
    const message = `the trial ${JSON.stringify(only)} has no photo of a window that it lights`;
    throw askedWrongly('TRIAL_WITHOUT_PHOTO', message, remedy);
  }
  const most = filesFor({ references, trials });
  if (most === 0) throw askedWrongly('UNIT_WITHOUT_PHOTO', `${name} has no photo of a trial or a reference`, remedy);
  return Array.from({ length: most }, (_, i) => ({
    format: 'evendial-series',
    version: 1,
    ...present({ ...record.photography }),
    windows: record.windows.map(windowOf),
    ...present({ reference: references.at(i) }),
    trials: trials.flatMap((parts) => parts.slice(i, i + 1)),
  }));
}

/**
 * A unit as a series file: its windows, the reference, and the trials that have a photo, each with its photos of the first
 * of its windows, and of all that these show.
 *
 * @param only  a trial; left out: all
 * @throws AppError UNIT_WITHOUT_WINDOW, TRIAL_UNKNOWN, TRIAL_WITHOUT_PHOTO, UNIT_WITHOUT_PHOTO
 * @rule BK13
 */
export function seriesOfUnit(record: UnitRecord, only?: string): SeriesFile {
  return seriesFiles(record, only)[0];
}

/** A window's photos one after the other, so that each is laid on the one before; the reference first. */
function byWindow(jobs: readonly MeasureJob[], windows: readonly string[]): MeasureJob[] {
  const place = ({ windows: [first] }: MeasureJob): number => windows.indexOf(first.spec.name);
  const isReference = ({ role }: MeasureJob): number => (role === 'reference' ? 1 : 0);
  return [...jobs].sort((a, b) => place(a) - place(b) || isReference(b) - isReference(a));
}

/**
 * What the engine is to measure of a unit; a trial that lights only some windows is measured in these alone. Each window is
 * measured in the newest photo of a trial that shows it: one job for each photo, or exposure series, that is needed for that.
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
  const requests = seriesFiles(record, only).map((file) => requestOfSeries(file, resolvePath));
  const jobs = requests
    .flatMap((request) => request.jobs)
    .map((job) => {
      const lit = record.trials.find(({ name }) => job.role === 'trial' && name === job.name)?.windows;
      const windows = job.windows.filter(({ spec }) => lit === undefined || lit.includes(spec.name));
      const last = job.bracket?.at(-1);
      return last ? { ...job, windows, photo: last, isPerhapsBracket: true as const } : { ...job, windows };
    });
  const names = record.windows.map(({ name }) => name);
  return { ...requests[0], jobs: byWindow(jobs, names) };
}
