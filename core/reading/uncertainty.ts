import type { LightKind, RoomKind } from '../contract/light';
import type { ResponseTrust } from '../photo/linear-photo';

/** What the plus-minus of every figure of one reading rests on. */
export interface UncertaintyBasis {
  readonly response: ResponseTrust;
  readonly light: LightKind;
  readonly room: RoomKind;
  /** From a lamp-off photo; null without one. */
  readonly ambientShare: number | null;
  /** Window width over frame width. */
  readonly viewShare: number;
  readonly printMaskFrom: 'photo' | 'other' | null;
  /** Print (dilated) over the area inside the outline. */
  readonly printShare: number;
  /** Green (or the channel used) clipped, share of the glow. */
  readonly clippedShare: number;
  /** Standard deviation of ln L from cell to cell. */
  readonly cellNoise: number;
  readonly pxPerMm: number;
  readonly whiteBalance: 'manual' | 'auto' | 'unknown';
}

/** Coverage factor of every printed plus-minus. @source JCGM 100 (GUM), about 95 % for a normal error */
export const coverageFactor = 2;

const root = (...parts: number[]): number => Math.sqrt(parts.reduce((sum, part) => sum + part * part, 0));

/**
 * How much of the doubt about the camera's tone curve remains, 0..1.
 * An unknown JPEG keeps it all; a stated encoding or a recovered response a quarter; linear data none.
 *
 * @source our own choice, after rendered photos with curves of different strength
 * @rule UN2
 */
export function responseDoubt(response: ResponseTrust): number {
  return { linear: 0, stated: 0.25, unknown: 1 }[response];
}

/** The spread of exponents that an unknown tone curve amounts to, one standard deviation. @rule UN2 */
export const exponentSpread = 0.1;

/** Room light that may have been overlooked, as a share of the lamp's light, one standard deviation. */
function ambientDoubt(basis: UncertaintyBasis): number {
  if (basis.ambientShare !== null) return 0.1 * basis.ambientShare;
  return { dark: 0.002, unknown: 0.02, lit: 0.15 }[basis.room];
}

/** Points of the score: lens corners darken the ends of a window that fills the frame. */
function vignettingPoints(viewShare: number): number {
  if (viewShare < 0.4) return 0.2;
  if (viewShare > 0.6) return 2;
  return 0.2 + (1.8 * (viewShare - 0.4)) / 0.2;
}

/**
 * Standard uncertainty (k = 1) of the evenness score, in points.
 *
 * root of the squares of: repeat 0.3; tone curve .035 E (100-E) / 25 + .3 (at least 2 for 90 < E < 99.5), scaled by the doubt
 * about the response; lens corners 0.2..2; room light 0.25 point a per cent; print mask; clipping 0.75 point a per cent.
 *
 * @param score 0..100
 * @source JCGM 100 for the sum; the parts are our own choice, from rendered photos with truth
 * @rule UN1
 */
export function scoreUncertainty(score: number, basis: UncertaintyBasis): number {
  const toneCurve = (0.035 * score * (100 - score)) / 25 + 0.3;
  const nearVisibility = score > 90 && score < 99.5 ? 2 : 0;
  const decode = responseDoubt(basis.response) * Math.max(toneCurve, nearVisibility);
  const mask = basis.printMaskFrom === 'photo' ? 0.5 : basis.printMaskFrom === 'other' ? 0.3 : 0.1;
  return root(0.3, decode, vignettingPoints(basis.viewShare), 25 * ambientDoubt(basis), mask, 75 * basis.clippedShare);
}

/**
 * Standard uncertainty (k = 1) of a ratio of two luminances of one photo.
 *
 * tone curve: r -> r^(1 +- 0.1), so 0.1 |r ln r| times the doubt; room light a lifts both: a |1 - r|;
 * lens corners: share v of the light; noise of the two cells; `base` for pose, corners and print left over.
 *
 * @param ratio  above 0
 * @param noiseGain how much of the cell noise reaches the figure, 0..1 (an extreme of many cells gains, a mean loses)
 * @source JCGM 100; parts our own choice, from rendered photos with truth
 * @rule UN3
 */
export function ratioUncertainty(ratio: number, basis: UncertaintyBasis, noiseGain: number, base = 0.004): number {
  const decode = responseDoubt(basis.response) * exponentSpread * Math.abs(ratio * Math.log(ratio));
  const room = ambientDoubt(basis) * Math.abs(1 - ratio);
  const vignetting = 0.01 * vignettingPoints(basis.viewShare) * ratio;
  return root(base, decode, room, vignetting, noiseGain * basis.cellNoise * ratio);
}

/**
 * Standard uncertainty (k = 1) of u' or v' alone, from the camera's spectral sensitivities and its white balance.
 *
 * @source the published sensitivities of 32 cameras, simulated for each kind of light (our own experiment): the vector's median
 * error divided by 1.18; unknown light takes the widest
 * @rule UN4
 */
export function chromaticityUncertainty(basis: UncertaintyBasis): number {
  const camera: Record<LightKind, number> = {
    filament: 0.0015,
    'warm-white': 0.0047,
    'phosphor-amber': 0.008,
    'cool-white': 0.0115,
    'red+green': 0.0125,
    'red+yellow-green': 0.015,
    'narrow-amber': 0.028,
    red: 0.028,
    unknown: 0.028,
  };
  const whiteBalance = { manual: 0.001, auto: 0.02, unknown: 0.01 }[basis.whiteBalance];
  return root(camera[basis.light], whiteBalance, 0.02 * ambientDoubt(basis));
}

/**
 * Standard uncertainty (k = 1) of the coefficient of variation.
 *
 * Tone curve: c -> (1 +- 0.1) c times the doubt; room light a takes a share a away; lens corners; noise adds in squares.
 *
 * @source JCGM 100; parts our own choice, from rendered photos with truth
 * @rule UN3
 */
export function variationUncertainty(variation: number, basis: UncertaintyBasis): number {
  const noise = 0.14 * basis.cellNoise;
  return root(
    0.003,
    responseDoubt(basis.response) * exponentSpread * variation,
    ambientDoubt(basis) * variation,
    0.005 * vignettingPoints(basis.viewShare),
    Math.hypot(variation, noise) - variation,
  );
}

/**
 * Standard uncertainty (k = 1) of the steepest change, per cent a mm.
 *
 * @source as for the coefficient of variation
 * @rule UN3
 */
export function steepestUncertainty(steepest: number, basis: UncertaintyBasis): number {
  const decode = responseDoubt(basis.response) * exponentSpread * steepest;
  return root(0.1, 0.04 * steepest, decode, ambientDoubt(basis) * steepest, 4 * basis.cellNoise);
}

/**
 * Standard uncertainty (k = 1) of the mean luminance of the glow, relative to it.
 *
 * Tone curve: L -> L^(1 +- 0.1) about full scale; exposure time 3 %, f-number and ISO cancel within a camera.
 *
 * @param relLuminance mean of the glow, 1 = full scale
 * @source our own choice
 * @rule UN6
 */
export function luminanceUncertainty(relLuminance: number, basis: UncertaintyBasis): number {
  const decode = responseDoubt(basis.response) * exponentSpread * Math.abs(Math.log(Math.max(relLuminance, 1e-4)));
  return root(0.03, decode, ambientDoubt(basis), basis.clippedShare);
}
