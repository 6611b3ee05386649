import { AppError } from './base/errors';
import { withReference } from './compare/against-reference/with-reference';
import type { LinearPhoto, PixelRegion } from './base/linear-photo';
import type { Corners } from './base/points';
import type { CarriedOutline, CarryRequest } from './contract/carry';
import type {
  FailedWindow,
  FindRequest,
  FoundOutline,
  FoundPhoto,
  LocatedWindow,
  MeasuredWindow,
  MeasureJob,
  MeasureProgress,
  MeasureRequest,
  MeasureResult,
  PhotoRef,
} from './contract/measure';
import type { DecodedPhoto } from './photo/decoded-photo';
import { exposureNormalisation } from './photo/exposure';
import { completeExposure } from './photo/exposure-of';
import { linearisePhoto } from './photo/linearise';
import { reducedPhoto } from './photo/reduced';
import {
  helpersOf,
  jobDecoder,
  litJob,
  regionOf,
  roomyRegion,
  witnessOf,
  type DecodedJob,
} from './preparation/job-photos';
import { litLightOf } from './preparation/lit-light';
import { readWindow } from './reading/reading';
import { checkCorners } from './window/corners';
import { reductionFor } from './window/reduction';
import { carryOutline } from './series/carry-outline';
import { cornersBesideKnown, type FirstShown } from './series/beside-known';
import { cornersByPrint } from './series/known-window';
import { layOnSeries, type OtherPhoto } from './series/lay-on-series';
import { findWindows } from './window/search/find-windows';

/** What the engine needs from the shell that it runs in. */
export interface EnginePorts {
  /**
   * Decodes a photo, or only a region of it (cut to the photo); rejects with an AppError of kind photo or cancelled.
   * Whoever cancels a run also stops what its port is decoding.
   */
  decodePhoto(path: string, request: { regionPx: PixelRegion | null }): Promise<DecodedPhoto>;
  /** A clock, for timings only: no figure depends on it. */
  nowMs(): number;
}

export interface MeasureRun {
  /** An AbortSignal will do. */
  readonly signal?: { readonly aborted: boolean };
  readonly onProgress?: (progress: MeasureProgress) => void;
}

/** A photo is decoded while the one before it is measured. */
const photosAhead = 2;

/** Searching a larger photo takes longer and finds no more. */
const mostSearchedPixels = 12_500_000;

/** A whole decoded photo as the search looks at it, and how many of its pixels a pixel of that is. */
function searchedPhoto(decoded: DecodedPhoto, photo: PhotoRef): { linear: LinearPhoto; factor: number } {
  const { photo: reduced, factor } = reducedPhoto(decoded, mostSearchedPixels);
  return { linear: linearisePhoto(reduced, photo.encoding, photo.encodingStated), factor };
}

const enlarged = (corners: Corners, factor: number): Corners =>
  corners.map(({ column, row }) => ({ column: column * factor, row: row * factor })) as unknown as Corners;

/** The lit windows of a whole decoded photo, in its own pixels, best first. */
function outlinesIn(decoded: DecodedPhoto, photo: PhotoRef): FoundOutline[] {
  const { linear, factor } = searchedPhoto(decoded, photo);
  return findWindows(linear).map((one) => ({ ...one, corners: enlarged(one.corners, factor) }));
}

/** What later photos of a series know of its windows, by their names. */
type KnownWindows = ReadonlyMap<string, FirstShown>;

/**
 * Windows with their places: as given, else where the series' print is, else where the search is surest of a lit window; one that
 * is dark, by a lit one beside it.
 */
function locateWindows({ photo, windows }: MeasureJob, decoded: DecodedPhoto, known: KnownWindows): LocatedWindow[] {
  if (windows.every((window) => window.corners !== null)) return windows as LocatedWindow[];
  const { linear, factor } = searchedPhoto(decoded, photo);
  const found = findWindows(linear);
  const searched = found.map(({ corners }) => corners);
  const seen = windows.map((window): LocatedWindow | null => {
    if (window.corners) return { ...window, corners: window.corners };
    const before = known.get(window.spec.name)?.window;
    const carried = before && cornersByPrint(before, linear, { given: [], searched: () => searched });
    if (carried) return { ...window, corners: enlarged(carried, factor), isCarriedOver: true };
    // Which of several windows the search has found, it cannot tell.
    const best = windows.length === 1 ? found.at(0) : undefined;
    if (!best) return null;
    const shape = window.isShapeStated ? window.spec.shape : { kind: best.outline };
    const corners = enlarged(best.corners, factor);
    return { ...window, spec: { ...window.spec, shape }, corners, searchConfidence: best.confidence };
  });
  const located = seen.filter((window) => window !== null);
  return windows.map((window, i) => {
    if (seen[i]) return seen[i];
    const { name } = window.spec;
    const dark = known.get(name);
    const corners = dark ? cornersBesideKnown(dark, located, (other) => known.get(other)) : null;
    if (!corners) throw windowNotFound(photo.file, windows.length > 1 ? name : undefined);
    return { ...window, corners, isCarriedOver: true };
  });
}

function windowNotFound(file: string, name?: string): AppError {
  const message =
    name === undefined
      ? `No lit window was found in ${file}.`
      : `The window ${name} was not found in ${file} by its print.`;
  const remedy =
    'Give its corners; a window cut by the edge of the photo, or hardly brighter than its front, is not found.';
  return new AppError('outline', 'WINDOW_NOT_FOUND', message, remedy);
}

/** The user's error as an entry at the photo's place; anything else is a defect and goes on upwards. */
function failedWindow(job: MeasureJob, error: unknown, windowName?: string): FailedWindow {
  if (!(error instanceof AppError)) throw error;
  const { code, remedy, kind } = error;
  // Several windows share a photo: the message says which one it is about.
  const message =
    windowName === undefined || job.windows.length < 2 ? error.message : `${windowName}: ${error.message}`;
  if (kind !== 'photo' && kind !== 'outline') throw new AppError(kind, code, `${job.photo.file}, ${message}`, remedy);
  return {
    role: job.role,
    name: job.name,
    window: windowName ?? null,
    kind,
    failed: { file: job.photo.file, error: { code, message, remedy } },
  };
}

/** A decoded photo of a job, as another photo's windows are looked for in it. */
function otherPhotoOf({ photo, windows }: MeasureJob, decoded: DecodedPhoto): OtherPhoto {
  const isPlaced = windows.length > 0 && windows.every((window) => window.corners !== null);
  const placed = windows as LocatedWindow[];
  const linear = isPlaced
    ? linearisePhoto(decoded, photo.encoding, photo.encodingStated, reductionFor(placed))
    : searchedPhoto(decoded, photo).linear;
  return {
    linear,
    placesOf: (name) => ({
      given: isPlaced ? placed.flatMap(({ spec, corners }) => (spec.name === name ? [corners] : [])) : [],
      searched: () => (isPlaced ? [] : findWindows(linear).map(({ corners }) => corners)),
    }),
  };
}

/** The other photos that a job's windows are read with. */
interface OtherPhotos {
  readonly printPhoto: (OtherPhoto & { readonly file: string }) | null;
  readonly second: OtherPhoto | null;
}

function measureJob(
  given: MeasureJob,
  all: DecodedJob,
  others: OtherPhotos,
  known: Map<string, FirstShown>,
  request: MeasureRequest,
  ports: EnginePorts,
): (MeasuredWindow | FailedWindow)[] {
  const job = litJob(given, all);
  const { lit: decoded } = all;
  const isSeries = request.isSeries === true;
  let windows: LocatedWindow[];
  try {
    windows = locateWindows(job, decoded, known);
  } catch (error) {
    return [failedWindow(given, error)];
  }
  const corners = windows.flatMap((window) => window.corners);
  const reduction = reductionFor(windows);
  const region = isSeries ? roomyRegion(corners) : regionOf(corners);
  const { linear, response, bracket: use, stored, recovered } = litLightOf(job, all, windows, region, reduction);
  const bracketPhotos = all.bracket?.given.map(({ photo, decoded: { facts } }) => ({ photo, facts })) ?? [];
  const bracket = use && { use, photos: bracketPhotos };
  const helpers = helpersOf(job, all, corners, reduction, response);
  const witness = witnessOf(job, all, response);
  return windows.map((located) => {
    const started = ports.nowMs();
    const { name } = located.spec;
    try {
      checkCorners(located.corners, decoded.facts.widthPx, decoded.facts.heightPx);
      const { known: learned, ...laid } = layOnSeries({
        window: located,
        role: job.role,
        linear,
        known: known.get(name)?.window ?? null,
        isSeries,
        ...others,
      });
      const { reading, facts, maps } = readWindow({
        job,
        facts: decoded.facts,
        linear,
        bracket,
        stored,
        helpers,
        request,
        ...laid,
      });
      if (isSeries && learned) known.set(name, { window: learned, photo: job.photo.path });
      const timingMs = { decode: decoded.decodeMs, measure: ports.nowMs() - started };
      const kept = recovered ? { response: recovered } : {};
      return { role: job.role, reading: { ...reading, timingMs }, facts, maps, ...kept, ...witness };
    } catch (error) {
      return failedWindow(given, error, name);
    }
  });
}

/** As for a photo that is measured, with the name of this one. */
function checkPrintPhotoCorners(
  corners: Corners,
  file: string,
  { widthPx, heightPx }: Pick<LinearPhoto, 'widthPx' | 'heightPx'>,
): void {
  try {
    checkCorners(corners, widthPx, heightPx);
  } catch (error) {
    if (!(error instanceof AppError)) throw error;
    throw new AppError(error.kind, error.code, `print photo ${file}: ${error.message}`, error.remedy);
  }
}

/** The job's print photo, if it has one, or why it cannot be read. */
async function decodePrintPhoto(
  { printPhoto, printPhotoCorners }: MeasureJob,
  ports: EnginePorts,
): Promise<Pick<OtherPhotos, 'printPhoto'> | { readonly refused: unknown }> {
  if (!printPhoto) return { printPhoto: null };
  try {
    const decoded = await ports.decodePhoto(printPhoto.path, { regionPx: null });
    const { file } = printPhoto;
    if (printPhotoCorners) {
      checkPrintPhotoCorners(printPhotoCorners, file, decoded.facts);
      // In the pixels of the file, as corners are; reduced light keeps to these.
      const reducedBy = reductionFor([{ corners: printPhotoCorners, sizeMm: null }]);
      const linear = linearisePhoto(decoded, printPhoto.encoding, printPhoto.encodingStated, reducedBy);
      return { printPhoto: { file, linear, placesOf: () => ({ given: [printPhotoCorners], searched: () => [] }) } };
    }
    const { linear } = searchedPhoto(decoded, printPhoto);
    const searched = (): Corners[] => findWindows(linear).map(({ corners }) => corners);
    return { printPhoto: { file, linear, placesOf: () => ({ given: [], searched }) } };
  } catch (refused) {
    return { refused };
  }
}

/**
 * Measures every window of every photo of a request. One bad photo does not stop the others.
 *
 * @returns in the order of the jobs, and of the windows within each; a photo that cannot be read gives one entry
 * @throws AppError of kind cancelled, when the signal aborts
 */
export async function measurePhotos(
  request: MeasureRequest,
  ports: EnginePorts,
  run: MeasureRun = {},
): Promise<MeasureResult> {
  const { jobs, isSeries = false } = request;
  const known = new Map<string, FirstShown>();
  const decoding = new Map<number, Promise<DecodedJob | { readonly refused: unknown }>>();
  const decodeJob = jobDecoder((path, request) => ports.decodePhoto(path, request), isSeries);
  const startDecoding = (index: number): void => {
    if (index >= jobs.length || decoding.has(index)) return;
    decoding.set(
      index,
      decodeJob(jobs[index]).catch((refused: unknown) => ({ refused })),
    );
  };
  /** For a series' first photo: the next other photo, which its print is compared with. */
  const secondOf = async (index: number): Promise<OtherPhoto | null> => {
    if (!isSeries || known.size > 0) return null;
    const at = jobs.findIndex(({ photo }, later) => later > index && photo.path !== jobs[index].photo.path);
    if (at < 0) return null;
    startDecoding(at);
    const second = await decoding.get(at)!;
    return 'refused' in second ? null : otherPhotoOf(jobs[at], second.lit);
  };
  const windows: (MeasuredWindow | FailedWindow)[] = [];
  for (const [index, job] of jobs.entries()) {
    const report = (step: MeasureProgress['step'], photosDone: number): void =>
      run.onProgress?.({ file: job.photo.file, step, photosDone, photosInAll: jobs.length });
    report('decode', index);
    for (let ahead = 0; ahead < photosAhead; ahead++) startDecoding(index + ahead);
    const decoded = await decoding.get(index)!;
    if (run.signal?.aborted) throw cancelled();
    report('measure', index);
    if ('refused' in decoded) windows.push(failedWindow(job, decoded.refused));
    else {
      const printPhoto = await decodePrintPhoto(job, ports);
      if ('refused' in printPhoto) windows.push(failedWindow(job, printPhoto.refused));
      else {
        const others = { ...printPhoto, second: await secondOf(index) };
        windows.push(...measureJob(job, decoded, others, known, request, ports));
      }
    }
    decoding.delete(index);
    report('done', index + 1);
  }
  return { windows: withReference(windows, jobs) };
}

/**
 * Finds the lit windows of photos, best first. One bad photo does not stop the others.
 *
 * @returns in the order of the photos
 * @throws AppError of kind cancelled, when the signal aborts
 */
export async function findOutlines(
  request: FindRequest,
  ports: EnginePorts,
  run: MeasureRun = {},
): Promise<FoundPhoto[]> {
  const found: FoundPhoto[] = [];
  const photosInAll = request.photos.length;
  for (const [photosDone, photo] of request.photos.entries()) {
    const { file } = photo;
    run.onProgress?.({ file, step: 'decode', photosDone, photosInAll });
    try {
      const decoded = await ports.decodePhoto(photo.path, { regionPx: null });
      if (run.signal?.aborted) throw cancelled();
      const { widthPx, heightPx } = decoded.facts;
      found.push({ file, widthPx, heightPx, candidates: outlinesIn(decoded, photo) });
    } catch (error) {
      if (!(error instanceof AppError) || error.kind !== 'photo') throw error;
      const { code, message, remedy } = error;
      found.push({ file, error: { code, message, remedy } });
    }
    run.onProgress?.({ file, step: 'done', photosDone: photosDone + 1, photosInAll });
  }
  return found;
}

/**
 * Where a window of one photo lies in another.
 *
 * @throws AppError of kind photo, for either photo; of kind cancelled, when the signal aborts
 * @rule SE8
 */
export async function carryWindow(
  { from, to }: CarryRequest,
  ports: EnginePorts,
  run: MeasureRun = {},
): Promise<CarriedOutline> {
  const { photo, window } = from;
  const known = await ports.decodePhoto(photo.path, { regionPx: roomyRegion(window.corners) });
  // The new photo last: it is the one that is measured next.
  const other = await ports.decodePhoto(to.path, { regionPx: null });
  if (run.signal?.aborted) throw cancelled();
  checkCorners(window.corners, known.facts.widthPx, known.facts.heightPx);
  const { linear, factor } = searchedPhoto(other, to);
  const carried = carryOutline(
    window,
    linearisePhoto(known, photo.encoding, photo.encodingStated, reductionFor([window])),
    { linear, searched: () => findWindows(linear) },
    exposureRatioOf(known, other),
  );
  if (carried.by === null) return carried;
  return { ...carried, cornersPx: carried.cornersPx.map(([column, row]) => [column * factor, row * factor] as const) };
}

/** Light that the sensor was given for the second photo over that for the first; 1 where a file does not tell. */
function exposureRatioOf(...photos: readonly [DecodedPhoto, DecodedPhoto]): number {
  const [first, second] = photos.map(({ facts }) => completeExposure(facts.camera));
  return first && second ? exposureNormalisation(first) / exposureNormalisation(second) : 1;
}

function cancelled(): AppError {
  return new AppError('cancelled', 'CANCELLED', 'Measuring was cancelled.', 'Start it again when you are ready.');
}
