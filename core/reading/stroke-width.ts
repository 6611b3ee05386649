import type { Mask, Plane } from '../base/plane';
import { medianOf } from '../base/stats';
import { type RidgePoint, ridgePoints } from './red-print-distance';

/** Seen in both directions across a ridge: so much farther than the mask reaches, mm; wider than any blur that is measured. */
export const beyondMm = 0.6;
/** Step along the way across, cells. */
const stepCells = 0.25;
/** Ridges are measured at so many places at most, evenly chosen. */
const mostPlaces = 2000;

/** Value between the four cells about a place, cells; NaN outside or beside a cell without a value. */
function between({ width, height, values }: Plane, x: number, y: number): number {
  const column = Math.floor(x - 0.5);
  const row = Math.floor(y - 0.5);
  if (column < 0 || row < 0 || column + 1 >= width || row + 1 >= height) return NaN;
  const right = x - 0.5 - column;
  const down = y - 0.5 - row;
  const at = row * width + column;
  const above = values[at] * (1 - right) + values[at + 1] * right;
  const below = values[at + width] * (1 - right) + values[at + width + 1] * right;
  return above * (1 - down) + below * down;
}

/** Unit vector across the stroke: along which the strength changes most (structure tensor); null where it does not change. */
function acrossAt(
  strength: Plane,
  { x, y, insideCells }: RidgePoint,
): { readonly x: number; readonly y: number } | null {
  let xx = 0;
  let xy = 0;
  let yy = 0;
  const reach = Math.ceil(insideCells) + 1;
  for (let dy = -reach; dy <= reach; dy++) {
    for (let dx = -reach; dx <= reach; dx++) {
      const alongX = between(strength, x + dx + 0.5, y + dy) - between(strength, x + dx - 0.5, y + dy);
      const alongY = between(strength, x + dx, y + dy + 0.5) - between(strength, x + dx, y + dy - 0.5);
      if (Number.isNaN(alongX) || Number.isNaN(alongY)) continue;
      xx += alongX * alongX;
      xy += alongX * alongY;
      yy += alongY * alongY;
    }
  }
  const half = (xx - yy) / 2;
  const root = Math.sqrt(half * half + xy * xy);
  if (!(root > 0)) return null;
  // The eigenvector of the larger value, from that of its two forms which does not cancel.
  const [vx, vy] = half >= 0 ? [half + root, xy] : [xy, root - half];
  const length = Math.sqrt(vx * vx + vy * vy);
  return { x: vx / length, y: vy / length };
}

/** Way from the strongest place of a profile to where it falls to half of it, steps; NaN when it does not. */
function stepsToHalf(profile: readonly number[], peak: number, step: 1 | -1): number {
  const half = profile[peak] / 2;
  for (let i = peak; i + step >= 0 && i + step < profile.length; i += step) {
    const [here, next] = [profile[i], profile[i + step]];
    if (Number.isNaN(next)) return NaN;
    if (next <= half) return Math.abs(i - peak) + (here - half) / (here - next);
  }
  return NaN;
}

/** Width at half of the strongest place across one ridge, cells; NaN when there is no such width. */
function widthAt(strength: Plane, ridge: RidgePoint, beyondCells: number): number {
  const across = acrossAt(strength, ridge);
  if (!across) return NaN;
  const inside = Math.ceil(ridge.insideCells / stepCells);
  const reach = inside + Math.ceil(beyondCells / stepCells);
  const profile: number[] = [];
  for (let i = -reach; i <= reach; i++) {
    const way = i * stepCells;
    profile.push(between(strength, ridge.x + way * across.x, ridge.y + way * across.y));
  }
  let peak = reach;
  for (let i = reach - inside; i <= reach + inside; i++) if (profile[i] > profile[peak]) peak = i;
  if (!(profile[peak] > 0)) return NaN;
  return (stepsToHalf(profile, peak, 1) + stepsToHalf(profile, peak, -1)) * stepCells;
}

/**
 * Width of the strokes of a mask, cells: median over their ridges of the width at half of the print's own strength across.
 *
 * The mask itself is wider than the print, since it takes in the blurred edge; half of the strength stays at the edge when a
 * stroke is blurred, as long as it is wider than the blur.
 *
 * @param strength  of the print: 0 on the free glow, largest on the print, linear in the light; NaN where there is no value
 * @returns twice the median ridge distance of the mask where the print is too faint for a width; NaN for an empty mask
 * @source full width at half maximum: common practice; direction by the structure tensor, Foerstner & Guelch 1987 (from memory)
 * @rule RP1
 */
export function strokeWidthCells(mask: Mask, strength: Plane, pxPerMm: number): number {
  const ridges = ridgePoints(mask);
  const stride = Math.ceil(ridges.length / mostPlaces) | 1;
  const widths = ridges
    .filter((_, i) => i % stride === 0)
    .map((ridge) => widthAt(strength, ridge, beyondMm * pxPerMm))
    .filter((width) => !Number.isNaN(width));
  if (4 * widths.length < Math.min(ridges.length, mostPlaces)) {
    return 2 * medianOf(ridges.map(({ insideCells }) => insideCells));
  }
  return medianOf(widths);
}
