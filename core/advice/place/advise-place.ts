import { cosDeg, directionDeg, sinDeg } from '../../colour/deterministic-angle';
import type { Figure } from '../../contract/figure';
import type { FittedLamp, WhichLamp } from '../../contract/place-advice';
import type { ErrorEntry } from '../../contract/readings';
import { coverageFactor } from '../../reading/uncertainty';
import { halvedMap, type MeasuredMap } from '../measured-map';
import { findLamps, type FitOutcome, type LampFit } from './fit-lamps';
import type { LampMove } from './forecast-move';

/** What of a reading the lamps are found in. */
export interface PlaceInput {
  readonly score: Figure;
  readonly map: MeasuredMap;
  readonly spots: readonly { readonly kind: 'hot' | 'dark' }[];
}

/** The lamps of a reading, with the map of half a mm that they were fitted to. */
export type FoundLamps = { readonly map: MeasuredMap; readonly fit: LampFit } | { readonly refusal: ErrorEntry };

/** From here on there is nothing to gain. */
const evenEnough = 95;

/** The lamps behind a reading's light, or why none can be moved on paper. @source our own choice @rule PL3 */
export function lampsOf({ score, map, spots }: PlaceInput): FoundLamps {
  const refused = (code: string, message: string, remedy: string): FoundLamps => ({
    refusal: { code, message, remedy },
  });
  if (score.value === null) {
    return refused(
      'PLACE_WITHOUT_SCORE',
      `no evenness score: ${score.reason ?? ''}`,
      'Take the photo again as its photo checks say.',
    );
  }
  if (score.value > evenEnough) {
    return refused('NOTHING_TO_GAIN', 'the glow is even to a careful eye', 'Leave the lamps where they are.');
  }
  const half = halvedMap(map);
  const found: FitOutcome = findLamps(half, spots.filter(({ kind }) => kind === 'hot').length);
  return 'refusal' in found ? found : { map: half, fit: found.fit };
}

/** Signed angle of a tangent, -90..90. */
const angleOf = (slope: number): number => {
  const direction = directionDeg(slope, 1);
  return direction > 180 ? direction - 360 : direction;
};

/** Indices of the fitted lamps, from the left. */
export const fromLeft = ({ model }: LampFit): number[] =>
  model.lamps.map((_, i) => i).sort((a, b) => model.lamps[a].xMm - model.lamps[b].xMm);

/** The lamps as they are told of, numbered from the left. @rule PL3 */
export function fittedLamps(fit: LampFit): FittedLamp[] {
  return fromLeft(fit).map((index, i) => {
    const { xMm, yMm, depthMm, lobe, slopes } = fit.model.lamps[index];
    const u = fit.uncertainties[index];
    return {
      number: i + 1,
      positionMm: [xMm, yMm, depthMm],
      plusMinusMm: [coverageFactor * u.xMm, coverageFactor * u.yMm, coverageFactor * u.lnDepth * depthMm],
      tiltDeg: [angleOf(slopes[0]), angleOf(slopes[1])],
      lobe,
    };
  });
}

/** The change of a tangent when its angle grows by so many degrees; a lamp is not turned past 87 degrees. */
function slopeChange(slope: number, byDeg: number): number {
  const by = sinDeg(byDeg) / cosDeg(byDeg);
  return (slope + by) / Math.max(0.05, 1 - slope * by) - slope;
}

/** Indices of the lamps that a user means: one, numbered from the left, or all; empty: there is no such lamp. */
export function lampsMeant(fit: LampFit, which: WhichLamp): readonly number[] {
  const lamps = fromLeft(fit);
  return which === 'all' ? lamps : lamps.slice(which - 1, which);
}

/**
 * A move as a user says it, the same for all lamps at these indices of the fit.
 *
 * @param byMm    right, down, away from the viewer
 * @param tiltDeg turned to the right and downwards, -60..60 each
 * @rule PL4
 */
export function movesOf(
  fit: LampFit,
  lamps: readonly number[],
  byMm: readonly [number, number, number],
  tiltDeg: readonly [number, number],
): readonly LampMove[] {
  const [right, down] = tiltDeg;
  return lamps.map((lamp) => {
    const { slopes } = fit.model.lamps[lamp];
    return { lamp, byMm, bySlopes: [slopeChange(slopes[0], right), slopeChange(slopes[1], down)] };
  });
}
