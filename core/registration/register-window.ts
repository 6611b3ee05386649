import { blurMasked } from '../base/gaussian';
import type { Mask, Plane } from '../base/plane';
import type { Corners, WindowPoint } from '../base/points';
import { type Homography, photoPointOf, type ProjectiveMatrix } from '../window/homography';
import { alignPictures } from './align-pictures';
import { slopesOf } from './derivative-sums';
import { shiftByPhase } from './phase-correlation';
import { type RegistrationImage, registrationPxPerMm } from './registration-image';
import { hasPrintThroughout, leftoverShift } from './tiles';
import { frameOf, matrixOfWarp, shiftedBy, type Warp } from './warp';

/** Below this the pictures do not show the same print: prints give 0.97 to 0.999, windows without print 0.23 at the most. */
export const leastCorrelation = 0.9;
/** Corners set by hand lie nearer than this. */
export const largestDisplacementMm = 1.5;
/** Parts of the print that lie farther apart cannot share a mask; strokes are 0.3 to 1 mm wide. */
export const largestErrorMm = 0.3;
/** Blur before the refinement, mm: the wide one catches what the shift left over, the narrow one fits the strokes. */
const blursMm = [0.8, 0.3] as const;

export type RegistrationRefusal = 'NO_PRINT' | 'NO_MATCH' | 'MOVED_TOO_FAR' | 'TILES_DISAGREE';

/** How the window of a photo lies on that of the reference. */
export interface Registration {
  readonly passed: true;
  /** From the reference's mm to the mm that the photo's own corners give. */
  readonly toPhotoMm: ProjectiveMatrix;
  readonly correlation: number;
  /** The farthest that a corner moved. */
  readonly displacementMm: number;
  /** What is left between the two prints, rms over parts of the window. */
  readonly errorMm: number;
}

export interface RegistrationRefused {
  readonly passed: false;
  readonly reason: RegistrationRefusal;
  /** A sentence without its full stop. */
  readonly message: string;
  /** null: nothing to correlate. */
  readonly correlation: number | null;
}

/** A point of the window in another plane's mm. @source algebra @rule RG4 */
export function movedPoint(m: ProjectiveMatrix, { xMm, yMm }: WindowPoint): WindowPoint {
  const w = m[6] * xMm + m[7] * yMm + m[8];
  return { xMm: (m[0] * xMm + m[1] * yMm + m[2]) / w, yMm: (m[3] * xMm + m[4] * yMm + m[5]) / w };
}

function cornersOf(widthMm: number, heightMm: number): WindowPoint[] {
  return [
    { xMm: 0, yMm: 0 },
    { xMm: widthMm, yMm: 0 },
    { xMm: widthMm, yMm: heightMm },
    { xMm: 0, yMm: heightMm },
  ];
}

function displacementOf(m: ProjectiveMatrix, widthMm: number, heightMm: number): number {
  const distances = cornersOf(widthMm, heightMm).map((corner) => {
    const { xMm, yMm } = movedPoint(m, corner);
    return Math.hypot(xMm - corner.xMm, yMm - corner.yMm);
  });
  return Math.max(...distances);
}

/** A warp of the pictures' cells as a matrix between mm. */
function inMillimetres(warp: Warp, { width, height }: Plane): ProjectiveMatrix {
  const [a, b, c, d, e, f, g, h, i] = matrixOfWarp(warp, frameOf(width, height));
  const p = registrationPxPerMm;
  return [a, b, c / p, d, e, f / p, g * p, h * p, i];
}

const measuredMask = ({ width, height, values }: Plane): Mask => ({
  width,
  height,
  values: Uint8Array.from(values, (value) => (Number.isNaN(value) ? 0 : 1)),
});

/** Blurred within what was measured; NaN outside `kept`. */
function blurredWithin(contrast: Plane, sigmaMm: number, kept?: Mask): Plane {
  const measured = measuredMask(contrast);
  const { blurred } = blurMasked(contrast, measured, sigmaMm * registrationPxPerMm);
  for (let i = 0; i < blurred.values.length; i++) {
    if (!measured.values[i] || (kept && !kept.values[i])) blurred.values[i] = NaN;
  }
  return blurred;
}

/**
 * Registers a window to the reference's by its print: phase correlation for the shift, then the enhanced correlation
 * coefficient with a homography on pictures blurred by 0.8 and then 0.3 mm.
 *
 * Refused, never bent: no print in four of six parts of either window (NO_PRINT), correlation below 0.90 (NO_MATCH), a
 * corner moved by more than the limit (MOVED_TOO_FAR), parts that still lie more than 0.3 mm apart (TILES_DISAGREE).
 *
 * @param limitMm how far the corners may be off; 1.5 for corners that somebody set
 * @source our own choice, tried on rendered windows
 * @rule RG4
 */
export function registerWindow(
  reference: RegistrationImage,
  photo: RegistrationImage,
  limitMm = largestDisplacementMm,
): Registration | RegistrationRefused {
  const { widthMm, heightMm, contrast } = reference;
  const refused = (reason: RegistrationRefusal, message: string, correlation: number | null): RegistrationRefused => ({
    passed: false,
    reason,
    message,
    correlation,
  });
  const pictures = blursMm.map((blurMm) => ({
    first: blurredWithin(contrast, blurMm, reference.inner),
    second: blurredWithin(photo.contrast, blurMm),
  }));
  const sharpest = pictures[pictures.length - 1];
  if (!hasPrintThroughout(sharpest.first) || !hasPrintThroughout(sharpest.second)) {
    return refused('NO_PRINT', 'there is too little print, or only in one part of the window', null);
  }
  const frame = frameOf(contrast.width, contrast.height);
  const shift = shiftByPhase(contrast, photo.contrast, limitMm * registrationPxPerMm);
  let warp: Warp = shiftedBy(shift, frame);
  let correlation = NaN;
  for (const { first, second } of pictures) {
    ({ warp, correlation } = alignPictures(first, slopesOf(second), warp, frame, 'homography'));
  }
  if (!(correlation >= leastCorrelation)) {
    return refused('NO_MATCH', 'the photos do not show the same print', Number.isNaN(correlation) ? null : correlation);
  }
  const toPhotoMm = inMillimetres(warp, contrast);
  const displacementMm = displacementOf(toPhotoMm, widthMm, heightMm);
  if (!(displacementMm <= limitMm)) {
    const message = `a corner would move by ${displacementMm.toFixed(1)} mm`;
    return refused('MOVED_TOO_FAR', message, correlation);
  }
  const errorMm = leftoverShift(sharpest.first, slopesOf(sharpest.second), warp) / registrationPxPerMm;
  if (!(errorMm <= largestErrorMm)) {
    const message = `parts of the print still lie ${errorMm.toFixed(2)} mm apart`;
    return refused('TILES_DISAGREE', message, correlation);
  }
  return { passed: true, toPhotoMm, correlation, displacementMm, errorMm };
}

/**
 * The window's corners in the photo as the registration has them.
 *
 * @param homography of the corners that the photo was registered with
 * @rule RG4
 */
export function refinedCorners(
  registration: Registration,
  homography: Homography,
  widthMm: number,
  heightMm: number,
): Corners {
  const corners = cornersOf(widthMm, heightMm).map((corner) =>
    photoPointOf(homography, movedPoint(registration.toPhotoMm, corner)),
  );
  return corners as unknown as Corners;
}
