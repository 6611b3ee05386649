import type { Plane } from '../../base/plane';
import { percentilesOf } from '../../base/stats';
import { blurGaussian } from '../../base/gaussian';
import { figure, type Figure } from '../../contract/figure';
import type { ShadeMount, ShadeStyle } from '../../contract/shade-advice';
import { coverageFactor } from '../../reading/uncertainty';
import {
  bentLight,
  type CarriedDoubt,
  doubtOf,
  halvedMap,
  lensPoints,
  meanOnGlow,
  scoreOfLight,
  type MeasuredMap,
} from '../measured-map';
import { steppedTransmission } from './contour-steps';
import { gapBlur, type GapBlur } from './gap-blur';
import { correctedTransmission, sourceLight } from './transmission';

export interface ShadeWish {
  /** Between shade and scale, mm. */
  readonly gapMm: number;
  /** The light to be left, as a percentile of the glow. */
  readonly targetPercent: number;
  readonly style: ShadeStyle;
}

export interface ShadePlan {
  /** What to let through, 0.03..1. */
  readonly transmission: Plane;
  readonly pxPerMm: number;
  /** As planned: gap and place as stated. */
  readonly light: Plane;
  readonly evennessOnMarks: Figure;
  /** The worst that gap and place leave possible. */
  readonly evennessAfter: Figure;
  readonly worstMount: ShadeMount;
  readonly lightLoss: number;
  readonly transmissionMin: number;
}

/** A gap is seldom known better. */
const gapFactors = [0.7, 1.3] as const;
/** How far aside a shade may be stuck, mm. */
const shiftMm = 1;
const shifts = [[1, 0], [-1, 0], [0, 1], [0, -1]] as const; // prettier-ignore
/** From this gap on cells of half a mm are fine enough. */
const coarseFromGapMm = 1;
/** Noise of the map, mm. */
const mapSmoothingMm = 0.5;
/** What dots, film and glue leave open, k = 1, points. */
const repeatPoints = 0.5;
/** A shade put on its marks at a measured gap keeps to this share of the worst that is reckoned with, k = 2. */
const shareOnMarks = 1 / 4;

function shiftedPlane(plane: Plane, dx: number, dy: number): Plane {
  const { width, height } = plane;
  const inside = (at: number, length: number): number => Math.min(Math.max(at, 0), length - 1);
  const values = plane.values.map((_, i) => {
    const [x, y] = [i % width, Math.floor(i / width)];
    return plane.values[inside(y - dy, height) * width + inside(x - dx, width)];
  });
  return { ...plane, values };
}

/** The measured light times what the shade leaves of the blurred source: what the source misses stays. */
function lightBehind(light: Plane, source: Plane, shade: Plane, blur: GapBlur): Plane {
  const without = blur(source);
  const behind = blur({ ...source, values: source.values.map((value, i) => value * shade.values[i]) });
  return { ...light, values: light.values.map((value, i) => (value * behind.values[i]) / without.values[i]) };
}

/** The blur of a gap, and the light at the shade's place if that gap is the true one. */
interface GapGuess {
  readonly blur: GapBlur;
  readonly source: Plane;
}

function guessOf({ width, height }: Plane, smooth: Plane, pxPerMm: number, gapMm: number): GapGuess {
  const blur = gapBlur(width, height, pxPerMm, gapMm);
  return { blur, source: sourceLight(smooth, blur) };
}

/** A light that gap and place leave possible, and its score. */
interface PossibleLight {
  readonly mount: ShadeMount;
  readonly light: Plane;
  readonly score: number;
}

/** Every light that gap and place leave possible; the first is what is planned. */
function possibleLights(
  map: MeasuredMap,
  shade: Plane,
  stated: GapGuess,
  [nearer, farther]: readonly GapGuess[],
): PossibleLight[] {
  const px = Math.round(shiftMm * map.pxPerMm);
  const possible = (mount: ShadeMount, { source, blur }: GapGuess, one = shade): PossibleLight => {
    const light = lightBehind(map.light, source, one, blur);
    return { mount, light, score: scoreOfLight(map, light) };
  };
  return [
    possible('as-planned', stated),
    ...(nearer && farther ? [possible('nearer', nearer), possible('farther', farther)] : []),
    ...shifts.map(([dx, dy]) => possible('aside', stated, shiftedPlane(shade, px * dx, px * dy))),
  ];
}

/** What the photo leaves open of a light that is forecast from it, k = 1, points: lens, tone curve as a bend, the rest. */
function pointsOfPhoto(map: MeasuredMap, { light, score }: PossibleLight, { bend, points }: CarriedDoubt): number {
  const bent = [1 - bend, 1 + bend].map((exponent) => {
    const moved = bentLight(map.light, exponent);
    const values = light.values.map((value, i) => (value * moved.values[i]) / map.light.values[i]);
    return Math.abs(scoreOfLight(map, { ...light, values }) - score);
  });
  return Math.hypot(points, lensPoints(map, light), Math.max(...bent));
}

/** A shade worked out for a window: what takes time, done once for every strength of it. */
export interface WorkedOutShade {
  readonly map: MeasuredMap;
  /** At full strength. */
  readonly transmission: Plane;
  readonly stated: GapGuess;
  readonly others: readonly GapGuess[];
}

/**
 * A shade that makes the glow even: the target is a percentile of the light; the source behind the gap is estimated, the
 * transmission corrected for the blur.
 *
 * @source our own choice
 * @rule AV5
 */
export function workOutShade(measured: MeasuredMap, wish: ShadeWish): WorkedOutShade {
  const map = wish.gapMm >= coarseFromGapMm ? halvedMap(measured) : measured;
  const smooth = blurGaussian(map.light, mapSmoothingMm * map.pxPerMm);
  const [target] = percentilesOf(
    smooth.values.filter((_, i) => map.glow.values[i]),
    [wish.targetPercent],
  );
  const guess = (factor: number): GapGuess => guessOf(map.light, smooth, map.pxPerMm, factor * wish.gapMm);
  const stated = guess(1);
  const transmission = correctedTransmission(smooth, stated.source, target, stated.blur, map.pxPerMm);
  const shade = wish.style === 'contours' ? steppedTransmission(transmission) : transmission;
  return { map, transmission: shade, stated, others: wish.gapMm > 0 ? gapFactors.map(guess) : [] };
}

/**
 * What a shade worked out would do at a strength: the score that it may have on its marks, and the worst.
 *
 * The worst is the lowest score of gap x 0.7, 1, 1.3 and of a shade 1 mm aside. The plus-minus of both is what the reading leaves
 * open, the tone curve as a bend of the light, and a point; on its marks a quarter of what the worst mount takes away is added.
 *
 * @param before   the reading's score
 * @param strength the power of the transmission, 0..1: 1 as worked out, 0 no shade
 * @source our own choice
 * @rule AV6
 */
export function shadeAtStrength(worked: WorkedOutShade, before: Figure, strength: number): ShadePlan {
  const { map, stated, others } = worked;
  const transmission = {
    ...worked.transmission,
    values: worked.transmission.values.map((value) => Math.pow(value, strength)),
  };
  const lights = possibleLights(map, transmission, stated, others);
  const [planned] = lights;
  const worst = lights.reduce((least, one) => (one.score < least.score ? one : least));
  const doubt = doubtOf(before);
  const forecast = (one: PossibleLight, mount: number): Figure =>
    figure(one.score, coverageFactor * Math.hypot(repeatPoints, pointsOfPhoto(map, one, doubt), mount));
  return {
    transmission,
    pxPerMm: map.pxPerMm,
    light: planned.light,
    evennessOnMarks: forecast(planned, (shareOnMarks * (planned.score - worst.score)) / coverageFactor),
    evennessAfter: forecast(worst, 0),
    worstMount: worst.mount,
    lightLoss: 1 - meanOnGlow(map, planned.light) / meanOnGlow(map, map.light),
    transmissionMin: transmission.values.reduce((least, value) => Math.min(least, value), 1),
  };
}

/** A shade as it is printed, at full strength. @source see its parts @rule AV5, AV6 */
export function planShade(measured: MeasuredMap, wish: ShadeWish, before: Figure): ShadePlan {
  return shadeAtStrength(workOutShade(measured, wish), before, 1);
}
