import type { SearchPass } from './edge-search';
import { darkShare } from './evidence';
import type { LightAt } from './light-grid';

/** The first look reaches that share of the shorter side: a hull may be off by so much where the ends are dark. */
const wideReachShare = 0.12;
const nearReachShare = 0.06;
/** And never less than so many cells, which is the hull's own error. */
const wideReachCells = 3;
const nearReachCells = 2;
/** On the photo's own pixels: one and a half cells and this many pixels. */
const fineReachCells = 1.5;
const leastFineReachPx = 2.5;
/** Least drop between two steps, in ln on the reduced light, in ln and in shares of the window's light on the pixels. */
const leastDropOfCells = 0.05;
const leastDropOfPixels = 0.02;
const leastDropOfLight = 0.01;

/** How finely the reduced light is sampled, and where from. */
export interface LookedAt {
  readonly coarse: LightAt;
  readonly fine: LightAt;
  readonly pxPerCell: number;
}

/**
 * From a wide look on the reduced light to a narrow one on the photo's pixels, for a window of one size and light.
 *
 * The first three compare ln(light + 0.3 x the window's own light): dark ends count nearly like the bright middle, and
 * what is darker than a third of the window is just dark. The last compares light itself, since the middle of a
 * blurred step of light is where the edge is.
 *
 * @param windowLight  above 0
 * @source our own choice
 * @rule WN15
 */
export function searchPasses(
  { coarse, fine, pxPerCell }: LookedAt,
  windowLight: number,
  shortSidePx: number,
): readonly SearchPass[] {
  const tone = (light: number): number => Math.log(light + darkShare * windowLight);
  const stepPx = Math.max(1, pxPerCell / 2);
  const wide = { lightAt: coarse, stepPx, tone, leastDrop: leastDropOfCells };
  const finest = { lightAt: fine, stepPx: 1, reachPx: Math.max(leastFineReachPx, fineReachCells * pxPerCell) };
  return [
    { ...wide, reachPx: Math.max(wideReachCells * pxPerCell, wideReachShare * shortSidePx) },
    { ...wide, reachPx: Math.max(nearReachCells * pxPerCell, nearReachShare * shortSidePx) },
    { ...finest, tone, leastDrop: leastDropOfPixels },
    { ...finest, tone: (light) => light, leastDrop: leastDropOfLight * windowLight },
  ];
}
