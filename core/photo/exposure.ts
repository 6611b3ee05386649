/** How long, through which opening and at which sensitivity a photo was taken. */
export interface Exposure {
  readonly exposureS: number;
  readonly fNumber: number;
  readonly iso: number;
}

/** Focal-plane exposure over scene luminance, lens losses included. @source ISO 12232 (from memory): 0.65 */
const lensFactor = 0.65;
/** Relative luminance that a standard output sensitivity renders a mid-tone at. @source ISO 12232 (from memory) */
const midTone = 0.18;
/** lx s that give the mid-tone at ISO 1. @source ISO 12232: H = 10 / S (from memory) */
const midToneExposureLxS = 10;

function checked({ exposureS, fNumber, iso }: Exposure): Exposure {
  if (!(exposureS > 0 && fNumber > 0 && iso > 0 && Number.isFinite(exposureS * fNumber * iso))) {
    throw new RangeError(`not an exposure: ${exposureS} s, f/${fNumber}, ISO ${iso}`);
  }
  return { exposureS, fNumber, iso };
}

/**
 * What relative luminance is multiplied by so that photos of other exposures compare: N^2 / (t S).
 *
 * Holds within one camera, with a linear decode.
 *
 * @returns above 0
 * @throws RangeError when a part is not above 0
 * @source reflected-light meter equation, ISO 2720:1974
 * @rule LU4
 */
export function exposureNormalisation(exposure: Exposure): number {
  const { exposureS, fNumber, iso } = checked(exposure);
  return (fNumber * fNumber) / (exposureS * iso);
}

/**
 * Exposure value at ISO 100: log2(N^2 / t) - log2(S / 100). One more means half the light for the same picture.
 *
 * @throws RangeError when a part is not above 0
 * @source ISO 2720:1974; APEX
 * @rule LU4
 */
export function exposureValue100(exposure: Exposure): number {
  return Math.log2(100 * exposureNormalisation(exposure));
}

/**
 * How many times as bright the second scene is: q2 / q1 with q = Y N^2 / (t S).
 *
 * @param first   relative luminance above 0, and its exposure
 * @throws RangeError for an impossible exposure
 * @source reflected-light meter equation, ISO 2720:1974
 * @rule LU4
 */
export function luminanceRatio(
  first: { readonly relLuminance: number; readonly exposure: Exposure },
  second: { readonly relLuminance: number; readonly exposure: Exposure },
): number {
  return (
    (second.relLuminance * exposureNormalisation(second.exposure)) /
    (first.relLuminance * exposureNormalisation(first.exposure))
  );
}

/**
 * Relative standard uncertainty (k = 1) of `luminanceRatio`: 3 % with equal settings, 8 % otherwise.
 *
 * With equal settings time, f-number and sensitivity cancel and little more than noise and decoding is left. With others
 * the time counts with 3 %, f-number and sensitivity with 4 % each, decoding with 5 %: root of their squares, 8 %.
 *
 * @throws RangeError for an impossible exposure
 * @source our own choice
 * @rule LU11
 */
export function luminanceRatioUncertainty(first: Exposure, second: Exposure): number {
  const [a, b] = [checked(first), checked(second)];
  const isEqual = a.exposureS === b.exposureS && a.fNumber === b.fNumber && a.iso === b.iso;
  return isEqual ? 0.03 : Math.hypot(0.03, 0.04, 0.04, 0.05);
}

/**
 * Luminance about, cd/m2, a factor of 2 either way (k = 2).
 *
 * L = H (N (1 + m))^2 / (0.65 t), H = (10 / S) (Y / 0.18) lx s at the focal plane.
 * Tone curves, the freedom in rating ISO (2/3 stop), lens losses and the meter constant are why it is no better.
 *
 * @param relLuminance   0 or more, 1 = full scale
 * @param magnification  of the picture on the sensor; 0 when unknown (0.3 changes the answer by 1.7 times)
 * @throws RangeError for an impossible exposure
 * @source ISO 12232 standard output sensitivity, ISO 2720:1974 (from memory)
 * @rule LU5
 */
export function approximateCdM2(relLuminance: number, exposure: Exposure, magnification = 0): number {
  const { exposureS, fNumber, iso } = checked(exposure);
  const focalPlaneLxS = (midToneExposureLxS / iso) * (relLuminance / midTone);
  const effectiveFNumber = fNumber * (1 + magnification);
  return (focalPlaneLxS * effectiveFNumber * effectiveFNumber) / (lensFactor * exposureS);
}

/** The true luminance lies within this factor of `approximateCdM2`, up or down (k = 2). @source our own choice @rule LU5 */
export const cdM2Factor = 2;
