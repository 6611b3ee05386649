import type { Mask, Plane } from '../base/plane';
import { medianOf } from '../base/stats';

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

/** One cell that a look towards the middle meets, in cells. */
interface MetCell {
  readonly value: number;
  /** From the outline's edge, along the look. */
  readonly along: number;
  /** From the nearest side of the bounding box: a frame is as wide seen aslant as seen straight. */
  readonly depth: number;
}

/** The light met from the outline's edge towards the middle, glow cells only. */
function lightAlong(light: Plane, glow: Mask, from: readonly [number, number]): MetCell[] {
  const [toColumn, toRow] = [glow.width / 2, glow.height / 2];
  const length = Math.hypot(toColumn - from[0], toRow - from[1]);
  const met: MetCell[] = [];
  let last = -1;
  for (let step = 0; step <= length; step += 0.5) {
    const column = Math.floor(from[0] + ((toColumn - from[0]) * step) / length);
    const row = Math.floor(from[1] + ((toRow - from[1]) * step) / length);
    const at = row * glow.width + column;
    if (row < 0 || column < 0 || row >= glow.height || column >= glow.width || at === last || !glow.values[at])
      continue;
    last = at;
    const depth = Math.min(column, row, glow.width - 1 - column, glow.height - 1 - row);
    met.push({ value: light.values[at], along: step, depth });
  }
  return met;
}

/** How wide the dark gap in the glow is before the cliff, in cells; 0 when there is no gap or no cliff. */
function gapBeforeCliff(met: readonly MetCell[], dark: number, reach: number): number {
  const start = met[0]?.depth ?? 0;
  const first = met.findIndex(({ value }) => value > dark);
  // Dark all the way: a cover, or the black inside of the case.
  if (first < 0) return met.length > 0 ? met[met.length - 1].depth - start : 0;
  if (first === 0) return 0;
  const { along, depth: edge } = met[first];
  const before = met[first - 1].value;
  const behind = met.filter((cell) => cell.along >= along && cell.along <= along + reach).map(({ value }) => value);
  return Math.max(...behind) > cliffFactor * Math.max(before, dark / 3) ? edge - start : 0;
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
  const lit: number[] = [];
  for (let i = 0; i < glow.values.length; i++) if (glow.values[i]) lit.push(relLuminance.values[i]);
  if (lit.length === 0) return { share: 0, widthMm: 0 };
  const sorted = Float64Array.from(lit).sort();
  // The brighter half's median: a wide frame would pull that of all cells down.
  const dark = darkShare * medianOf(sorted.subarray(Math.floor(sorted.length / 2)));
  const edge: [number, number][] = [];
  for (let column = 0; column < glow.width; column++) edge.push([column + 0.5, 0.5], [column + 0.5, glow.height - 0.5]);
  for (let row = 0; row < glow.height; row++) edge.push([0.5, row + 0.5], [glow.width - 0.5, row + 0.5]);
  const wide = edge
    .map((from) => gapBeforeCliff(lightAlong(relLuminance, glow, from), dark, cliffReachMm * pxPerMm))
    .filter((gap) => gap > 0)
    .map((gap) => gap / pxPerMm + borderMm)
    .filter((gapMm) => gapMm >= leastGapMm);
  return { share: wide.length / edge.length, widthMm: wide.length ? medianOf(wide) : 0 };
}
