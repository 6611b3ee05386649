import { blurGaussian } from '../base/gaussian';
import { assertSameShape, type Mask, type Plane } from '../base/plane';
import type { WindowPoint } from '../base/points';
import { percentilesOf } from '../base/stats';

/** How well what is printed on a window lies on itself in two photos. */
export interface StructureMatch {
  /** -1..1, at the best place. */
  readonly correlation: number;
  /** What lies at (x, y) in the first photo lies at (x, y) + shift in the second. */
  readonly shiftMm: WindowPoint;
}

/** Noise goes, print stays: its strokes are 0.3 mm wide or more. @source our own choice */
const noiseBlurMm = 0.15;
/** The lamp's light changes over more than this, print over less. @source our own choice */
const backgroundBlurMm = 1;
/** Under this deviation of ln L nothing is printed that could be seen to move. @source our own choice */
const leastStructure = 0.02;
/** Where nearly no light is, its logarithm is noise: share of the 95th percentile that counts as the least. */
const darkestShare = 0.02;
/** How far the print is looked for. */
const reachMm = 1.5;

/** Differences of ln L to its surroundings: what is printed, whatever light falls on it or through it. */
function structureOf(luminance: Plane, pxPerMm: number): Plane {
  const measured = luminance.values.filter(Number.isFinite);
  const least = Math.max(1e-6, darkestShare * percentilesOf(measured, [95])[0]);
  // NaN compares as false: what was not measured counts as dark.
  const light = luminance.values.map((value) => (value > least ? value : least));
  const calm = blurGaussian({ ...luminance, values: light }, noiseBlurMm * pxPerMm);
  const logarithm = { ...calm, values: calm.values.map((value) => Math.log(value)) };
  const background = blurGaussian(logarithm, backgroundBlurMm * pxPerMm);
  return { ...calm, values: logarithm.values.map((value, i) => value - background.values[i]) };
}

/** Pearson's correlation of two planes, the second shifted by whole cells, over the cells of the mask; NaN for none. */
function correlationAt(first: Plane, second: Plane, within: Mask, dx: number, dy: number): number {
  const { width, height } = first;
  let [n, a, b, aa, bb, ab] = [0, 0, 0, 0, 0, 0];
  for (let row = Math.max(0, -dy); row < Math.min(height, height - dy); row++) {
    for (let column = Math.max(0, -dx); column < Math.min(width, width - dx); column++) {
      const at = row * width + column;
      if (!within.values[at]) continue;
      const x = first.values[at];
      const y = second.values[at + dy * width + dx];
      n += 1;
      a += x;
      b += y;
      aa += x * x;
      bb += y * y;
      ab += x * y;
    }
  }
  return (n * ab - a * b) / Math.sqrt((n * aa - a * a) * (n * bb - b * b));
}

/** Where between its neighbours a peak lies: the parabola through three values, -0.5..0.5. */
function peakBetween(before: number, at: number, after: number): number {
  const bend = before - 2 * at + after;
  const place = (before - after) / (2 * bend);
  return bend < 0 && Number.isFinite(place) ? Math.min(0.5, Math.max(-0.5, place)) : 0;
}

function deviationWithin(plane: Plane, within: Mask): number {
  let [n, sum, squares] = [0, 0, 0];
  plane.values.forEach((value, i) => {
    if (!within.values[i]) return;
    n += 1;
    sum += value;
    squares += value * value;
  });
  return n ? Math.sqrt(Math.max(0, squares / n - (sum / n) ** 2)) : 0;
}

/**
 * Whether two photos show the same print at the same place of the window, within 1.5 mm.
 *
 * Print is what differs from its surroundings within a millimetre or two, so the light behind it or on it does not
 * matter. The best correlation over shifts of whole cells, refined by a parabola along each axis.
 *
 * @param first,second  luminance of the window seen straight on, on one grid; NaN where not measured; not altered
 * @param within        cells of the first photo to compare
 * @returns null when the first photo shows no print: nothing could be seen to have moved
 * @source normalised cross-correlation: common practice; widths our own choice
 * @rule CP2
 */
export function matchStructure(first: Plane, second: Plane, within: Mask, pxPerMm: number): StructureMatch | null {
  assertSameShape(first, second);
  assertSameShape(first, within);
  const [a, b] = [structureOf(first, pxPerMm), structureOf(second, pxPerMm)];
  if (deviationWithin(a, within) < leastStructure) return null;
  const reach = Math.ceil(reachMm * pxPerMm);
  const valueAt = (dx: number, dy: number): number => correlationAt(a, b, within, dx, dy);
  let best = { dx: 0, dy: 0, correlation: -1 };
  for (let dy = -reach; dy <= reach; dy++) {
    for (let dx = -reach; dx <= reach; dx++) {
      const correlation = valueAt(dx, dy);
      if (correlation > best.correlation) best = { dx, dy, correlation };
    }
  }
  const { dx, dy, correlation } = best;
  const alongX = dx + peakBetween(valueAt(dx - 1, dy), correlation, valueAt(dx + 1, dy));
  const alongY = dy + peakBetween(valueAt(dx, dy - 1), correlation, valueAt(dx, dy + 1));
  return { correlation, shiftMm: { xMm: alongX / pxPerMm, yMm: alongY / pxPerMm } };
}
