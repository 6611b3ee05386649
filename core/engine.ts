import { AppError } from './base/errors';
import type { PixelRegion } from './base/linear-photo';
import type {
  FailedWindow,
  MeasuredWindow,
  MeasureJob,
  MeasureProgress,
  MeasureRequest,
  MeasureResult,
} from './contract/measure';
import type { DecodedPhoto } from './photo/decoded-photo';
import { linearisePhoto } from './photo/linearise';
import { readWindow } from './reading/reading';

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

/** Pixels around the corners that rectifying may touch. */
const marginPx = 4;
/** A photo is decoded while the one before it is measured. */
const photosAhead = 2;

/** The part of the photo that holds all windows of a job; the decoder cuts it to the photo. */
function regionOf(job: MeasureJob): PixelRegion {
  const corners = job.windows.flatMap((window) => window.corners);
  const columns = corners.map((corner) => corner.column);
  const rows = corners.map((corner) => corner.row);
  const column = Math.floor(Math.min(...columns)) - marginPx;
  const row = Math.floor(Math.min(...rows)) - marginPx;
  const width = Math.ceil(Math.max(...columns)) + marginPx - column;
  const height = Math.ceil(Math.max(...rows)) + marginPx - row;
  return { column, row, width, height };
}

/** The user's error as an entry at the photo's place; anything else is a defect and goes on upwards. */
function failedWindow(job: MeasureJob, error: unknown): FailedWindow {
  if (!(error instanceof AppError) || (error.kind !== 'photo' && error.kind !== 'outline')) throw error;
  const { code, message, remedy, kind } = error;
  return { role: job.role, kind, failed: { file: job.photo.file, error: { code, message, remedy } } };
}

function measureJob(
  job: MeasureJob,
  decoded: DecodedPhoto,
  request: MeasureRequest,
  ports: EnginePorts,
): (MeasuredWindow | FailedWindow)[] {
  const linear = linearisePhoto(decoded, job.photo.encoding, job.photo.encodingStated);
  return job.windows.map((window) => {
    const started = ports.nowMs();
    try {
      const { reading, maps } = readWindow({ job, window, facts: decoded.facts, linear, request });
      const timingMs = { decode: decoded.decodeMs, measure: ports.nowMs() - started };
      return { role: job.role, reading: { ...reading, timingMs }, maps };
    } catch (error) {
      return failedWindow(job, error);
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
  const decoding = new Map<number, Promise<DecodedPhoto | { readonly refused: unknown }>>();
  const startDecoding = (index: number): void => {
    if (index >= jobs.length || decoding.has(index)) return;
    const { path } = jobs[index].photo;
    const started = ports.decodePhoto(path, { regionPx: regionOf(jobs[index]) });
    decoding.set(
      index,
      started.catch((refused: unknown) => ({ refused })),
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

function cancelled(): AppError {
  return new AppError('cancelled', 'CANCELLED', 'Measuring was cancelled.', 'Start it again when you are ready.');
}
