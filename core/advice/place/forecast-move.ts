import { AppError } from '../../base/errors';
import type { Plane } from '../../base/plane';
import { figure, type Figure } from '../../contract/figure';
import { coverageFactor } from '../../reading/uncertainty';
import { doubtOf, pointsOfDoubt, scoreOfLight, type MeasuredMap } from '../measured-map';
import type { LampFit } from './fit-lamps';
import { modelLight, type LampModel, type ModelLamp } from './lamp-model';

export interface LampMove {
  /** Its index in the fit. */
  readonly lamp: number;
  readonly byMm: readonly [number, number, number];
  /** Turned by so much, in tangents. */
  readonly bySlopes: readonly [number, number];
}

/** A lamp does not come nearer than this to the scale, mm. */
const leastDepthMm = 1.5;

function movedModel(model: LampModel, moves: readonly LampMove[]): LampModel {
  const lamps = model.lamps.map((one, i): ModelLamp => {
    const move = moves.find(({ lamp }) => lamp === i);
    if (move === undefined) return one;
    const { byMm, bySlopes } = move;
    const depthMm = Math.max(leastDepthMm, one.depthMm + byMm[2]);
    const nearer = one.depthMm / depthMm;
    return {
      ...one,
      xMm: one.xMm + byMm[0],
      yMm: one.yMm + byMm[1],
      depthMm,
      slopes: [one.slopes[0] + bySlopes[0], one.slopes[1] + bySlopes[1]],
      // A is the light straight in front: it falls with the square of the depth.
      strength: one.strength * nearer * nearer,
    };
  });
  return { ...model, lamps };
}

/** Measured light as it would be with lamps of another model: what the model misses stays. */
export function lightOfModel({ light, pxPerMm }: MeasuredMap, from: LampModel, to: LampModel): Plane {
  const values = light.values.map((value, i) => {
    const [x, y] = [((i % light.width) + 0.5) / pxPerMm, (Math.floor(i / light.width) + 0.5) / pxPerMm];
    return (value * modelLight(to, x, y)) / modelLight(from, x, y);
  });
  return { ...light, values };
}

/** What a forecast misses beside its parameters, k = 1: half a point, and a fifth of a point a per cent of the fit's rms. */
const basePoints = 0.5;
const pointsPerRmsPercent = 0.2;

/** The score alone, for searching. @source as forecastMove @rule PL4 */
export function scoreOfMove(map: MeasuredMap, fit: LampFit, moves: readonly LampMove[]): number {
  return scoreOfLight(map, lightOfModel(map, fit.model, movedModel(fit.model, moves)));
}

/**
 * The light after lamps are moved or turned, and its score.
 *
 * Measured map x model(new) / model(old): what the model misses stays. Plus-minus: the fit's covariance, what
 * the reading leaves open, and half a point + 0.2 points a per cent of rms.
 *
 * @param measured the reading's score
 * @source JCGM 100 for the sum; the last part after our own experiments (5.5 % rms: within 2 points)
 * @rule PL4
 */
export function forecastMove(
  map: MeasuredMap,
  fit: LampFit,
  moves: readonly LampMove[],
  measured: Figure,
): { readonly evenness: Figure; readonly light: Plane } {
  const light = lightOfModel(map, fit.model, movedModel(fit.model, moves));
  const score = scoreOfLight(map, light);
  const ofModels = fit.neighbours.map(
    (model) => scoreOfLight(map, lightOfModel(map, model, movedModel(model, moves))) - score,
  );
  const ofReading = pointsOfDoubt(map, light, doubtOf(measured));
  const uncertainty = Math.hypot(basePoints, pointsPerRmsPercent * 100 * fit.rms, ofReading, ...ofModels);
  return { evenness: figure(score, coverageFactor * uncertainty), light };
}

/** Where a lamp may be, mm: the box, the chassis and the LED's own body set it. */
export interface PlaceLimits {
  readonly x: readonly [number, number];
  readonly y: readonly [number, number];
  readonly z: readonly [number, number];
}

/** The same way for all of these lamps. */
export const together = (lamps: readonly number[], byMm: LampMove['byMm']): LampMove[] =>
  lamps.map((lamp) => ({ lamp, byMm, bySlopes: [0, 0] }));

/**
 * The way, one for all of these lamps, that scores best and leaves each within limits: a grid, then ever smaller steps about its
 * best place.
 *
 * @throws AppError of kind refusal, LIMITS_TOO_NARROW: no way leaves all of them there
 * @source our own choice: grid and pattern search, without chance
 * @rule PL5
 */
export function bestPlace(
  map: MeasuredMap,
  fit: LampFit,
  lamps: readonly number[],
  limits: PlaceLimits,
): LampMove['byMm'] {
  const placesOf = [
    ({ xMm }: ModelLamp) => xMm,
    ({ yMm }: ModelLamp) => yMm,
    ({ depthMm }: ModelLamp) => depthMm,
  ] as const;
  const ranges = [limits.x, limits.y, limits.z].map(([from, to], axis): readonly [number, number] => {
    const places = lamps.map((lamp) => placesOf[axis](fit.model.lamps[lamp]));
    const range = [from - Math.min(...places), to - Math.max(...places)] as const;
    if (range[0] > range[1]) {
      const remedy = 'Widen the limits, or move one lamp at a time.';
      throw new AppError('refusal', 'LIMITS_TOO_NARROW', 'the limits do not hold all lamps at once', remedy);
    }
    return range;
  });
  const scoreAt = (by: readonly number[]): number =>
    scoreOfMove(map, fit, together(lamps, by as unknown as LampMove['byMm']));
  const along = ([from, to]: readonly [number, number], steps: number): number[] =>
    Array.from({ length: steps }, (_, i) => from + ((to - from) * i) / (steps - 1));
  let best = ranges.map(([from, to]) => (from + to) / 2);
  let bestScore = scoreAt(best);
  const consider = (by: readonly number[]): void => {
    const score = scoreAt(by);
    if (score > bestScore) [best, bestScore] = [[...by], score];
  };
  for (const x of along(ranges[0], 5))
    for (const y of along(ranges[1], 3)) for (const z of along(ranges[2], 3)) consider([x, y, z]);
  for (let share = 0.125; share > 0.02; share /= 2) {
    for (let axis = 0; axis < 3; axis++) {
      for (const way of [-1, 1]) {
        const [from, to] = ranges[axis];
        const value = best[axis] + way * share * (to - from);
        if (value >= from && value <= to) consider(best.map((old, i) => (i === axis ? value : old)));
      }
    }
  }
  return best as unknown as LampMove['byMm'];
}
