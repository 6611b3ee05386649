import { assertSameShape, type Plane } from '../base/plane';
import { medianOf } from '../base/stats';
import type { ReadingMaps } from '../contract/measure';

/** ln of a light plane over the median of the cells that both planes have; NaN elsewhere. */
function overMedian(plane: Plane, common: readonly number[]): Float32Array {
  const level = medianOf(common.map((i) => plane.values[i]));
  const ratios = new Float32Array(plane.values.length).fill(NaN);
  for (const i of common) ratios[i] = Math.log(plane.values[i] / level);
  return ratios;
}

/**
 * Where one trial has more of its light than another: ln((L_b / median L_b) / (L_a / median L_a)), cell by cell.
 *
 * How bright each is as a whole drops out; that is the pair's luminance. Both windows must lie on the same mm.
 *
 * @param a, b 4 cells a mm, equal sizes; not altered
 * @returns b less a, ln units, 4 cells a mm; NaN where either is no glow or has no light
 * @source our own choice: of two arrangements of lamps, shape and brightness are separate questions
 * @rule PR7
 */
export function differenceMap(a: Pick<ReadingMaps, 'glowLuminance'>, b: Pick<ReadingMaps, 'glowLuminance'>): Plane {
  const [planeA, planeB] = [a.glowLuminance, b.glowLuminance];
  assertSameShape(planeA, planeB);
  const common: number[] = [];
  planeA.values.forEach((value, i) => {
    if (value > 0 && planeB.values[i] > 0) common.push(i);
  });
  const ofA = overMedian(planeA, common);
  const values = overMedian(planeB, common);
  for (const i of common) values[i] -= ofA[i];
  return { ...planeA, values };
}
