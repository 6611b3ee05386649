import type { Mask, Plane } from '../base/plane';
import { medianOf, percentilesOf } from '../base/stats';

/** Where the light stops inside the outline. */
export interface DarkRim {
  /** Share of the outline behind which the light starts only after a dark gap and a cliff, 0..1. */
  readonly share: number;
  /** Median width of that gap, mm; 0 when there is none. */
  readonly widthMm: number;
}

/** Darker than this share of the glow's median is no glow but a frame, a cover or the inside of the case. */
const darkShare = 0.15;
/** A dark gap narrower than this is the lens's blur or a bezel's shadow, mm from the outline. */
const leastGapMm = 0.75;
/** Light that grows by this factor within half a millimetre has an edge; a dark end of a window fades. */
const cliffFactor = 2.5;
const cliffReachMm = 0.5;

/**
 * How wide the dark gap in the glow is before the cliff, in cells, looking from the outline's edge towards the middle at glow
 * cells only; 0 when there is no gap or no cliff. The gap is measured from the nearest side of the bounding box: a frame is as
 * wide seen aslant as seen straight.
 */
function gapBeforeCliff(
  light: Plane,
  glow: Mask,
  from: readonly [number, number],
  dark: number,
  reach: number,
): number {
  const { width, height } = glow;
  const [toColumn, toRow] = [width / 2, height / 2];
  const length = Math.hypot(toColumn - from[0], toRow - from[1]);
  const [across, down] = [(toColumn - from[0]) / length, (toRow - from[1]) / length];
  let [start, depth, before] = [-1, 0, 0];
  let cliff: { readonly until: number; readonly gap: number } | null = null;
  let brightest = 0;
  let last = -1;
  for (let step = 0; step <= length; step += 0.5) {
    if (cliff && step > cliff.until) break;
    const column = Math.floor(from[0] + across * step);
    const row = Math.floor(from[1] + down * step);
    const at = row * width + column;
    if (at === last || !glow.values[at]) continue;
    last = at;
    const value = light.values[at];
    if (cliff === null) {
      depth = Math.min(column, row, width - 1 - column, height - 1 - row);
      if (value <= dark) {
        if (start < 0) start = depth;
        before = value;
        continue;
      }
      if (start < 0) return 0;
      cliff = { until: step + reach, gap: depth - start };
    }
    brightest = Math.max(brightest, value);
  }
  if (start < 0) return 0;
  // Dark all the way: a cover, or the black inside of the case.
  if (cliff === null) return depth - start;
  return brightest > cliffFactor * Math.max(before, dark / 3) ? cliff.gap : 0;
}

/** The median of the brighter half. */
function brighterMedian(values: Float32Array): number {
  const half = Math.floor(values.length / 2);
  const place = half + (values.length - half - 1) / 2;
  return percentilesOf(values, [(100 * place) / Math.max(1, values.length - 1)])[0];
}

/**
 * Whether the corners lie on the frame, or a part of the outline is covered: from every cell of the bounding box's edge one
 * looks towards the middle and notes how far the light is away, if it then starts with a cliff.
 *
 * A gap counts from 0.75 mm of less than 15 % of the glow's median on, when the light then grows 2.5 times within 0.5 mm.
 *
 * @param relLuminance  map of the light; not altered
 * @param glow          the cells that count
 * @param borderMm      what of the outline's rim does not count anyway: a gap is seen behind it, and is wider by it
 * @returns share 0 and width 0 when there is no glow
 * @source our own choice: corners 5 to 40 px outside the lit edge scored 7 for 27
 * @rule GT5
 */
export function findDarkRim(relLuminance: Plane, glow: Mask, pxPerMm: number, borderMm = 0): DarkRim {
  const lit = relLuminance.values.filter((_, i) => glow.values[i]);
  if (lit.length === 0) return { share: 0, widthMm: 0 };
  // A wide frame would pull the median of all cells down.
  const dark = darkShare * brighterMedian(lit);
  const edge: [number, number][] = [];
  for (let column = 0; column < glow.width; column++) edge.push([column + 0.5, 0.5], [column + 0.5, glow.height - 0.5]);
  for (let row = 0; row < glow.height; row++) edge.push([0.5, row + 0.5], [glow.width - 0.5, row + 0.5]);
  const wide = edge
    .map((from) => gapBeforeCliff(relLuminance, glow, from, dark, cliffReachMm * pxPerMm))
    .filter((gap) => gap > 0)
    .map((gap) => gap / pxPerMm + borderMm)
    .filter((gapMm) => gapMm >= leastGapMm);
  return { share: wide.length / edge.length, widthMm: wide.length ? medianOf(wide) : 0 };
}
