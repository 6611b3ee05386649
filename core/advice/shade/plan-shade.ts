import type { Plane } from '../../base/plane';
import { percentilesOf } from '../../base/stats';
import { blurGaussian } from '../../base/gaussian';
import { figure, type Figure } from '../../contract/figure';
import type { ShadeStyle } from '../../contract/shade-advice';
import { coverageFactor } from '../../reading/uncertainty';
import { bentLight, doubtOf, halvedMap, lensPoints, meanOnGlow, scoreOfLight, type MeasuredMap } from '../measured-map';
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
  readonly evennessAfter: Figure;
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

/** Every light that gap and place leave possible; the first is what is planned. */
function possibleLights(map: MeasuredMap, shade: Plane, stated: GapGuess, others: readonly GapGuess[]): Plane[] {
  const px = Math.round(shiftMm * map.pxPerMm);
  const behind = ({ source, blur }: GapGuess, one: Plane): Plane => lightBehind(map.light, source, one, blur);
  return [
    behind(stated, shade),
    ...others.map((guess) => behind(guess, shade)),
    ...shifts.map(([dx, dy]) => behind(stated, shiftedPlane(shade, px * dx, px * dy))),
  ];
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
 * What a shade worked out would do at a strength, and the worst score that it may have.
 *
 * The score is the lowest of gap x 0.7, 1, 1.3 and of a shade 1 mm aside; its plus-minus is what the reading leaves open, the tone
 * curve as a bend of the light, and a point.
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
  const scores = lights.map((light) => scoreOfLight(map, light));
  const worst = Math.min(...scores);
  const { bend, points } = doubtOf(before);
  const worstLight = lights[scores.indexOf(worst)];
  const bent = [1 - bend, 1 + bend].map((exponent) => {
    const moved = bentLight(map.light, exponent);
    return scoreOfLight(map, {
      ...worstLight,
      values: worstLight.values.map((value, i) => (value * moved.values[i]) / map.light.values[i]),
    });
  });
  const open = Math.max(...bent.map((score) => Math.abs(score - worst)));
  return {
    transmission,
    pxPerMm: map.pxPerMm,
    light: lights[0],
    evennessAfter: figure(worst, coverageFactor * Math.hypot(repeatPoints, points, open, lensPoints(map, worstLight))),
    lightLoss: 1 - meanOnGlow(map, lights[0]) / meanOnGlow(map, map.light),
    transmissionMin: transmission.values.reduce((least, value) => Math.min(least, value), 1),
  };
}

/** A shade as it is printed, at full strength. @source see its parts @rule AV5, AV6 */
export function planShade(measured: MeasuredMap, wish: ShadeWish, before: Figure): ShadePlan {
  return shadeAtStrength(workOutShade(measured, wish), before, 1);
}
