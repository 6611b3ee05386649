import { AppError } from './base/errors';
import type { PixelRegion } from './base/linear-photo';
import type { Corners, PhotoPoint } from './base/points';
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
import { linearisePhoto } from './photo/linearise';
import { partOf, reducedPhoto } from './photo/reduced';
import { helpersOf, jobDecoder, regionOf, witnessOf, type DecodedJob } from './preparation/job-photos';
import { readWindow } from './reading/reading';
import { reductionFor } from './window/reduction';
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

/** The lit windows of a whole decoded photo, in its own pixels, best first. */
function outlinesIn(decoded: DecodedPhoto, photo: PhotoRef): FoundOutline[] {
  const { photo: reduced, factor } = reducedPhoto(decoded, mostSearchedPixels);
  const found = findWindows(linearisePhoto(reduced, photo.encoding, photo.encodingStated));
  if (factor === 1) return found;
  const enlarged = ({ column, row }: PhotoPoint): PhotoPoint => ({ column: column * factor, row: row * factor });
  return found.map((one) => ({ ...one, corners: one.corners.map(enlarged) as unknown as Corners }));
}

/** Windows with their places: as given, else where the search is surest that a lit window is. */
function locateWindows(job: MeasureJob, decoded: DecodedPhoto): LocatedWindow[] {
  if (job.windows.every((window) => window.corners !== null)) return job.windows as LocatedWindow[];
  const best = outlinesIn(decoded, job.photo).at(0);
  return job.windows.map((window) => {
    if (window.corners) return { ...window, corners: window.corners };
    if (!best) throw windowNotFound(job.photo.file);
    const shape = window.isShapeStated ? window.spec.shape : { kind: best.outline };
    const { corners, confidence: searchConfidence } = best;
    return { ...window, spec: { ...window.spec, shape }, corners, searchConfidence };
  });
}

function windowNotFound(file: string): AppError {
  const remedy =
    'Give its corners; a window cut by the edge of the photo, or hardly brighter than its front, is not found.';
  return new AppError('outline', 'WINDOW_NOT_FOUND', `No lit window was found in ${file}.`, remedy);
}

/** The user's error as an entry at the photo's place; anything else is a defect and goes on upwards. */
function failedWindow(job: MeasureJob, error: unknown, windowName?: string): FailedWindow {
  if (!(error instanceof AppError)) throw error;
  const { code, remedy, kind } = error;
  // Several windows share a photo: the message says which one it is about.
  const message =
    windowName === undefined || job.windows.length < 2 ? error.message : `${windowName}: ${error.message}`;
  if (kind !== 'photo' && kind !== 'outline') throw new AppError(kind, code, `${job.photo.file}, ${message}`, remedy);
  return { role: job.role, kind, failed: { file: job.photo.file, error: { code, message, remedy } } };
}

function measureJob(
  job: MeasureJob,
  all: DecodedJob,
  request: MeasureRequest,
  ports: EnginePorts,
): (MeasuredWindow | FailedWindow)[] {
  const { encoding, encodingStated } = job.photo;
  const { lit: decoded } = all;
  let windows: LocatedWindow[];
  try {
    windows = locateWindows(job, decoded);
  } catch (error) {
    return [failedWindow(job, error)];
  }
  const corners = windows.flatMap((window) => window.corners);
  const reduction = reductionFor(windows);
  const linear = linearisePhoto(partOf(decoded, regionOf(corners)), encoding, encodingStated, reduction);
  const helpers = helpersOf(job, all, corners, reduction);
  const witness = witnessOf(job, all);
  return windows.map((window) => {
    const started = ports.nowMs();
    try {
      const { reading, maps } = readWindow({ job, window, facts: decoded.facts, linear, helpers, request });
      const timingMs = { decode: decoded.decodeMs, measure: ports.nowMs() - started };
      return { role: job.role, reading: { ...reading, timingMs }, maps, ...witness };
    } catch (error) {
      return failedWindow(job, error, window.spec.name);
    }
  });
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
  const { jobs } = request;
  const decoding = new Map<number, Promise<DecodedJob | { readonly refused: unknown }>>();
  const decodeJob = jobDecoder((path, request) => ports.decodePhoto(path, request));
  const startDecoding = (index: number): void => {
    if (index >= jobs.length || decoding.has(index)) return;
    decoding.set(
      index,
      decodeJob(jobs[index]).catch((refused: unknown) => ({ refused })),
    );
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
    else windows.push(...measureJob(job, decoded, request, ports));
    decoding.delete(index);
    report('done', index + 1);
  }
  return { windows };
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

function cancelled(): AppError {
  return new AppError('cancelled', 'CANCELLED', 'Measuring was cancelled.', 'Start it again when you are ready.');
}
