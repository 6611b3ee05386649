import { AppError } from '../base/errors';
import type { LinearPhoto, PixelRegion } from '../base/linear-photo';
import type { LocatedWindow, MeasureJob } from '../contract/measure';
import type { PhotoFacts } from '../photo/decoded-photo';
import { linearisePhoto } from '../photo/linearise';
import { partOf } from '../photo/reduced';
import type { CameraResponse } from '../photo/response/camera-response';
import { assumedSize, checkCorners } from '../window/corners';
import { homographyFromCorners } from '../window/homography';
import { useBracket, type BracketUse } from './bracket-use';
import type { DecodedJob } from './job-photos';
import type { WindowPlace } from './photo-in-light';

/** The light of a job's windows, and by what its codes became light. */
export interface LitLight {
  readonly linear: LinearPhoto;
  /** Recovered from the job's own exposure series; null: by the file or as stated. */
  readonly response: CameraResponse | null;
  /** null: the job is one photo. */
  readonly bracket: BracketUse | null;
}

/** Where a window stands, or none for corners that cannot be: what is wrong with them, its reading says. */
function placesOf({ corners, sizeMm, spec }: LocatedWindow, { widthPx, heightPx }: PhotoFacts): WindowPlace[] {
  try {
    checkCorners(corners, widthPx, heightPx);
  } catch (error) {
    if (error instanceof AppError) return [];
    throw error;
  }
  const { widthMm, heightMm } = sizeMm ?? assumedSize(corners);
  const homography = homographyFromCorners(corners, widthMm, heightMm);
  return [{ corners, homography, widthMm, heightMm, shape: spec.shape }];
}

/**
 * The light of a job: of its photo, or of its exposure series merged. A series that cannot be used leaves its middle photo.
 *
 * @param region    that shows the windows
 * @param reduction photo pixels along a side of a block that is averaged
 * @rule BR6
 */
export function litLightOf(
  { photo }: MeasureJob,
  { lit, bracket }: DecodedJob,
  windows: readonly LocatedWindow[],
  region: PixelRegion,
  reduction: number,
): LitLight {
  const alone = (): LinearPhoto => linearisePhoto(partOf(lit, region), photo.encoding, photo.encodingStated, reduction);
  if (!bracket) return { linear: alone(), response: null, bracket: null };
  const places = windows.flatMap((window) => placesOf(window, lit.facts));
  const { use, merged } = useBracket(bracket, places, region, reduction);
  return { linear: merged?.linear ?? alone(), response: merged?.response ?? null, bracket: use };
}
