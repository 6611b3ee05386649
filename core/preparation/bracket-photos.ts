import { AppError } from '../base/errors';
import type { MeasureJob, PhotoRef } from '../contract/measure';
import type { CameraFacts } from '../contract/readings';
import type { DecodedPhoto } from '../photo/decoded-photo';
import { withStatedExposure } from '../photo/exposure-of';

/** One photo of an exposure series, decoded. */
export interface BracketPhoto {
  readonly photo: PhotoRef;
  readonly decoded: DecodedPhoto;
  /** What the user stated stands before what the file says. */
  readonly camera: CameraFacts;
  readonly exposureS: number;
}

/** An exposure series in the order of its exposures, shortest first. */
export interface Bracket {
  readonly rising: readonly BracketPhoto[];
  /** In the order given. */
  readonly given: readonly BracketPhoto[];
  /** Of the middle exposure: in it the window is looked for, and its full scale is the unit of light. */
  readonly middle: BracketPhoto;
}

/** Two exposures count as one below this ratio: a camera's times are a third of a step apart at least. */
const sameWithin = 1.1;
/** Photos that differ by less in all leave the curve to their noise. @source our own choice */
const leastRangeEv = 1.5;
/** Steps of 1 to 2 EV tell a curve, 3 EV leave too few places that two photos share. @source our own choice, from drawn series */
const widestStepEv = 2.5;

/**
 * The photos of a job's exposure series by their exposure times.
 *
 * @param photos in the order given, one or more
 * @throws AppError EXPOSURE_UNKNOWN of kind usage, with the place, when a photo has no exposure time
 * @rule BR7
 */
export function bracketOf(job: MeasureJob, photos: readonly { photo: PhotoRef; decoded: DecodedPhoto }[]): Bracket {
  const given = photos.map(({ photo, decoded }, i): BracketPhoto => {
    const camera = withStatedExposure(decoded.facts.camera, photo.exposure);
    const { exposureS } = camera;
    if (exposureS === undefined) {
      const message = `photo ${i + 1} (${photo.file}) of the exposure series ${job.name} does not say its exposure time`;
      const remedy = 'Use the original files, or state exposureS for each photo in a series file.';
      throw new AppError('usage', 'EXPOSURE_UNKNOWN', message, remedy);
    }
    return { photo, decoded, camera, exposureS };
  });
  const rising = [...given].sort((a, b) => a.exposureS - b.exposureS);
  return { rising, given, middle: rising[Math.floor((rising.length - 1) / 2)] };
}

/**
 * The bracket of photos that may as well be shots taken again: nobody takes three of different exposure times for that. Of
 * fewer, or where a time is not known, there is no series.
 *
 * @rule BR10
 */
export function perhapsBracketOf(
  job: MeasureJob,
  photos: readonly { photo: PhotoRef; decoded: DecodedPhoto }[],
): Bracket | null {
  const times = photos.map(({ photo, decoded }) => withStatedExposure(decoded.facts.camera, photo.exposure).exposureS);
  if (times.includes(undefined)) return null;
  const bracket = bracketOf(job, photos);
  return distinctExposures(bracket).length < 3 ? null : bracket;
}

/** Exposure times that differ, rising. */
function distinctExposures({ rising }: Bracket): number[] {
  return rising.reduce<number[]>((found, { exposureS }) => {
    const last = found.at(-1);
    return last !== undefined && exposureS < sameWithin * last ? found : [...found, exposureS];
  }, []);
}

/** Settings that must be those of the middle photo, each with the clause that says what differs. */
const fixed: readonly (readonly [(photo: BracketPhoto) => unknown, string])[] = [
  [({ camera }) => camera.make, 'its photos are from different cameras'],
  [({ camera }) => camera.model, 'its photos are from different cameras'],
  [({ decoded }) => `${decoded.facts.widthPx} x ${decoded.facts.heightPx}`, 'its photos differ in size'],
  [({ decoded }) => decoded.facts.bitDepth, 'its photos differ in bits a channel'],
  [({ camera }) => camera.iso, 'the ISO changed: only the exposure time may'],
  [({ camera }) => camera.fNumber, 'the f-number changed: only the exposure time may'],
  [({ camera }) => camera.focalLengthMm, 'the focal length changed: only the exposure time may'],
  [({ camera }) => camera.whiteBalance, 'the white balance changed: only the exposure time may'],
  [({ photo }) => photo.encoding, 'different encodings are stated for its photos'],
];

/**
 * Why photos are no exposure series that a tone curve can be recovered from, as far as their notes tell: a clause, or null.
 *
 * @source three exposures: Mitsunaga & Nayar 1999 judge a curve by those beyond the two that fit it; limits our own choice
 * @rule BR7
 */
export function unusableBracket(bracket: Bracket): string | null {
  const { rising, middle } = bracket;
  if (rising.length < 3) return `${rising.length === 1 ? 'one photo is' : 'two photos are'} too few: three are needed`;
  const differing = fixed.find(([of]) => rising.some((photo) => of(photo) !== of(middle)));
  if (differing) return differing[1];
  const exposures = distinctExposures(bracket);
  if (exposures.length < 3) return `only ${exposures.length} different exposure times: three are needed`;
  const rangeEv = Math.log2(exposures[exposures.length - 1] / exposures[0]);
  if (rangeEv < leastRangeEv) return `its exposures differ by ${rangeEv.toFixed(1)} EV in all: 2 EV or more are needed`;
  if (rising.some(({ decoded }) => !decoded.codes || decoded.linear)) {
    return 'the colour profile of its photos is a table, which hides the camera’s own codes';
  }
  return null;
}

/** Why a usable series is to be doubted by its exposures, as a clause; null when nothing speaks against it. @rule BR7 */
export function doubtfulSteps(bracket: Bracket): string | null {
  const exposures = distinctExposures(bracket);
  const widest = Math.max(...exposures.slice(1).map((exposureS, i) => Math.log2(exposureS / exposures[i])));
  return widest > widestStepEv ? `its exposures are up to ${widest.toFixed(1)} EV apart, 1 to 2 EV tell more` : null;
}
