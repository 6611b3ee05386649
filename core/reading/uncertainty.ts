import type { UncertaintyBasis } from '../contract/comparable';
import type { LightKind } from '../contract/light';

export type { UncertaintyBasis };

/** Coverage factor of every printed plus-minus. @source JCGM 100 (GUM), about 95 % for a normal error */
export const coverageFactor = 2;

const root = (...parts: number[]): number => Math.sqrt(parts.reduce((sum, part) => sum + part * part, 0));

/** All that can remain of the doubt about a tone curve, the largest first. @rule UN2 */
export const responseDoubts = [2, 1, 0.25, 0] as const;

/**
 * How much of the doubt about the camera's tone curve remains, 0..2.
 * An unknown JPEG keeps it all, one of a phone twice; a stated encoding or a recovered response a quarter; linear data none.
 *
 * @source our own choice, after rendered photos with curves of different strength
 * @rule UN2
 */
export function responseDoubt({
  response,
  isSmallCamera,
}: Pick<UncertaintyBasis, 'response' | 'isSmallCamera'>): number {
  if (response === 'unknown' && isSmallCamera) return 2;
  return { linear: 0, stated: 0.25, recovered: 0.25, unknown: 1 }[response];
}

/** The spread of exponents that an unknown tone curve amounts to, one standard deviation. @rule UN2 */
export const exponentSpread = 0.1;

/**
 * Room light that a subtraction leaves, as a share of the lamp's light, one standard deviation: a tenth of what was
 * subtracted, and a quarter of it times the doubt about the tone curve.
 *
 * @source our own choice: under an exponent of 1.1 light at a tenth of full scale is taken for a fifth less; under S curves of
 *   strength 0.4 and 0.6 rendered room light of 18 % and 16 % was read as 12 % and 8 %
 * @rule UN9
 */
export function subtractionDoubt(ambientShare: number, basis: UncertaintyBasis): number {
  return ambientShare * Math.hypot(0.1, 0.25 * responseDoubt(basis));
}

/** Room light that may have been overlooked, as a share of the lamp's light, one standard deviation. @rule UN1 */
export function ambientDoubt(basis: UncertaintyBasis): number {
  if (basis.ambientShare !== null) return subtractionDoubt(basis.ambientShare, basis);
  return { dark: 0.002, unknown: 0.02, lit: 0.15 }[basis.room];
}

/** Points of the score, of a window that fills the frame. */
export const mostLensPoints = 2;

/** Points of the score: lens corners darken the ends of a window that fills the frame. */
function vignettingPoints(viewShare: number): number {
  if (viewShare < 0.4) return 0.2;
  return viewShare > 0.6 ? mostLensPoints : 0.2 + (0.3 * (viewShare - 0.4)) / 0.2;
}

/** Share of the light that a stopped-down or corrected lens takes away at a window's ends: 4 % at the frame's, k = 2. */
function vignettingShare(viewShare: number): number {
  return 0.02 * viewShare * viewShare;
}

/** What print hides of the light, as a share of the outline; nothing is hidden where none was found. */
function hiddenShare(basis: UncertaintyBasis): number {
  return basis.printMaskFrom === null ? 0 : basis.printShare;
}

/** Points of a score that an unknown tone curve leaves open, k = 1. @source our own choice, from rendered photos @rule UN1 */
export function toneCurvePoints(score: number): number {
  return Math.max((0.035 * score * (100 - score)) / 25 + 0.3, score > 90 && score < 99.5 ? 2 : 0);
}

/**
 * Standard uncertainty (k = 1) of the evenness score, in points.
 *
 * root of the squares of: repeat 0.3; tone curve .035 E (100-E) / 25 + .3 (at least 2 for 90 < E < 99.5), scaled by the doubt
 * about the response; lens corners 0.2..2; room light 0.25 point a per cent; print mask, and 0.25 points
 * for each tenth that print hides; clipping 0.75 point a per cent.
 *
 * @param score 0..100
 * @source JCGM 100 for the sum; the parts are our own choice, from rendered photos with truth
 * @rule UN1
 */
export function scoreUncertainty(score: number, basis: UncertaintyBasis): number {
  const decode = responseDoubt(basis) * toneCurvePoints(score);
  const mask = basis.printMaskFrom === 'photo' ? 0.4 : 0.2;
  const hidden = 2.5 * hiddenShare(basis);
  return root(
    0.3,
    decode,
    vignettingPoints(basis.viewShare),
    25 * ambientDoubt(basis),
    mask,
    hidden,
    75 * basis.clippedShare,
  );
}

/** How doubts reach one kind of ratio. */
export interface RatioGains {
  /** Of the noise from cell to cell: an extreme of many cells gains, a mean loses. 0..1. */
  readonly noise: number;
  /** Of the dark corners of the lens: 1, or 0 where both sides lose alike. */
  readonly lens: 0 | 1;
  /** Of the print's share of the window: print that is denser where the light is stronger leans a mean. */
  readonly hidden: number;
  /** Pose, corners, print left over: in the ratio's own unit. */
  readonly base: number;
}

/**
 * Standard uncertainty (k = 1) of a ratio of two luminances of one photo.
 *
 * tone curve: r -> r^(1 +- 0.1), so 0.1 |r ln r| times the doubt; room light a lifts both: a |1 - r|;
 * lens corners: share v of the light, unless they cancel; noise of the two cells; `base` for pose, corners and
 * print left over. Of the glow that is seen: what print hides is no part of the figure.
 *
 * @param ratio  0 or more
 * @source JCGM 100; parts our own choice, from rendered photos with truth
 * @rule UN3
 */
export function ratioUncertainty(ratio: number, basis: UncertaintyBasis, gain: RatioGains): number {
  const bent = ratio > 0 ? Math.abs(ratio * Math.log(ratio)) : 0;
  const decode = responseDoubt(basis) * exponentSpread * bent;
  const room = ambientDoubt(basis) * Math.abs(1 - ratio);
  const vignetting = gain.lens * vignettingShare(basis.viewShare) * ratio;
  const hidden = gain.hidden * hiddenShare(basis);
  return root(gain.base, decode, room, vignetting, hidden, gain.noise * basis.cellNoise * ratio);
}

/** What room light moves a colour in u'v', per share of the lamp's light. @source our own choice @rule UN4 */
export const roomOnColour = 0.02;

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
  return root(camera[basis.light], whiteBalance, roomOnColour * ambientDoubt(basis));
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
    0.002,
    responseDoubt(basis) * exponentSpread * variation,
    0.012 * variation,
    ambientDoubt(basis) * variation,
    0.5 * vignettingShare(basis.viewShare),
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
  const decode = responseDoubt(basis) * exponentSpread * steepest;
  return root(0.05, 0.025 * steepest, decode, ambientDoubt(basis) * steepest, 4 * basis.cellNoise);
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
  const decode = responseDoubt(basis) * exponentSpread * Math.abs(Math.log(Math.max(relLuminance, 1e-4)));
  return root(0.03, decode, ambientDoubt(basis), basis.clippedShare);
}
