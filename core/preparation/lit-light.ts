import { AppError } from '../base/errors';
import type { LinearPhoto, PixelRegion } from '../base/linear-photo';
import type { LocatedWindow, MeasureJob } from '../contract/measure';
import type { DecodedPhoto, PhotoFacts } from '../photo/decoded-photo';
import { linearisePhoto } from '../photo/linearise';
import { partOf } from '../photo/reduced';
import type { CameraResponse } from '../photo/response/camera-response';
import { assumedSize, checkCorners } from '../window/corners';
import { homographyFromCorners } from '../window/homography';
import type { StoredResponse } from '../contract/response';
import { withStatedExposure } from '../photo/exposure-of';
import { useBracket, type BracketUse } from './bracket-use';
import type { DecodedJob } from './job-photos';
import type { WindowPlace } from './photo-in-light';
import { responseMismatch, responseOfStored, storedResponseOf, type StoredResponseUse } from './stored-response';

/** The light of a job's windows, and by what its codes became light. */
export interface LitLight {
  readonly linear: LinearPhoto;
  /** Recovered from the job's own exposure series, or stored; null: by the file or as stated. */
  readonly response: CameraResponse | null;
  /** null: the job is one photo. */
  readonly bracket: BracketUse | null;
  /** What became of the job's stored response; null: it has none, or a series of its own. */
  readonly stored: StoredResponseUse | null;
  /** To be kept: recovered without a doubt; null: not. */
  readonly recovered: StoredResponse | null;
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

/** The light of one photo, by a stored response where it fits. */
function lightOfOne(
  { photo }: MeasureJob,
  response: StoredResponse | undefined,
  part: DecodedPhoto,
  reduction: number,
): LitLight {
  const { encoding, encodingStated } = photo;
  const plain = { response: null, bracket: null, recovered: null };
  const linear = linearisePhoto(part, encoding, encodingStated, reduction);
  if (!response) return { ...plain, linear, stored: null };
  const camera = withStatedExposure(part.facts.camera, photo.exposure);
  const reason = part.linear
    ? 'the photo’s colour profile is a table'
    : responseMismatch(response, { camera, facts: part.facts, colourSpace: linear.colourSpace });
  if (reason !== null) return { ...plain, linear, stored: { state: 'refused', reason } };
  const curves = responseOfStored(response);
  return {
    ...plain,
    linear: linearisePhoto(part, encoding, encodingStated, reduction, curves),
    response: curves,
    stored: { state: 'used', stored: response },
  };
}

/**
 * The light of a job: of its photo, or of its exposure series merged. A series that cannot be used leaves its middle photo.
 *
 * @param region    that shows the windows
 * @param reduction photo pixels along a side of a block that is averaged
 * @rule BR6, BR9
 */
export function litLightOf(
  job: MeasureJob,
  { lit, bracket }: DecodedJob,
  windows: readonly LocatedWindow[],
  region: PixelRegion,
  reduction: number,
): LitLight {
  if (!bracket) return lightOfOne(job, job.response, partOf(lit, region), reduction);
  const places = windows.flatMap((window) => placesOf(window, lit.facts));
  const { use, merged } = useBracket(bracket, places, region, reduction);
  if (use.state === 'refused' || !merged) {
    return { ...lightOfOne(job, undefined, partOf(lit, region), reduction), bracket: use };
  }
  const scope = { camera: bracket.middle.camera, facts: lit.facts, colourSpace: merged.linear.colourSpace };
  const recovered = use.doubts.length > 0 ? null : storedResponseOf(use.recovered, scope, use.photoCount);
  return { ...merged, bracket: use, stored: null, recovered };
}
