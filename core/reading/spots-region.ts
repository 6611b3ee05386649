import type { Plane } from '../base/plane';
import type { SpotField } from './spots-field';
import type { SpotPeak } from './spots-peaks';

/** A vector or a place on the map's grid, cells; a cell's centre is at + 0.5. */
export interface GridVector {
  readonly x: number;
  readonly y: number;
}

/** A mean that moves less than this has come to rest, cells; it does so within a few rounds. */
const restingPx = 0.01;
const mostRounds = 60;
/** Fewer cells say nothing about a place. */
const leastCells = 9;

/** Whether a cell is nearer to this peak than to every other: neighbours must not be counted in. */
export function isNearest(column: number, row: number, peak: SpotPeak, others: readonly SpotPeak[]): boolean {
  const squared = (to: SpotPeak): number => (column - to.column) ** 2 + (row - to.row) ** 2;
  const own = squared(peak);
  return others.every((other) => squared(other) >= own);
}

/**
 * The cells about a peak that hang together (8 neighbours) above a share of its contrast and lie nearer to it than to the
 * other peaks.
 *
 * @param share  0..1 of the peak's contrast
 * @returns indices, the peak's first
 * @rule SP3
 */
export function regionAbove(contrast: Plane, peak: SpotPeak, others: readonly SpotPeak[], share: number): number[] {
  const { width, height, values } = contrast;
  const start = peak.row * width + peak.column;
  const level = share * values[start];
  const seen = new Set([start]);
  for (const at of seen) {
    const row = Math.floor(at / width);
    const column = at - row * width;
    for (let y = Math.max(0, row - 1); y <= Math.min(height - 1, row + 1); y++) {
      for (let x = Math.max(0, column - 1); x <= Math.min(width - 1, column + 1); x++) {
        if (values[y * width + x] > level && isNearest(x, y, peak, others)) seen.add(y * width + x);
      }
    }
  }
  return [...seen];
}

/** Mean place of cells, each with its weight. */
export function centroidOf(cells: readonly number[], width: number, weightAt: (cell: number) => number): GridVector {
  let sum = 0;
  let x = 0;
  let y = 0;
  for (const cell of cells) {
    const weight = weightAt(cell);
    const row = Math.floor(cell / width);
    sum += weight;
    x += weight * (cell - row * width + 0.5);
    y += weight * (row + 0.5);
  }
  return { x: x / sum, y: y / sum };
}

/**
 * Place of a spot that the border cuts: the weighted mean of its inner part, with the same left out on the far side as the
 * cut takes away (cells whose mirror image about the mean is not the spot's), taken again until it rests. Otherwise it would be
 * pushed away from the cut.
 *
 * @param core      cells about the peak, with weight above 0
 * @param belongs   whether a place on the grid is inside and the spot's own
 * @rule SP3
 */
export function balancedCentroid(
  core: readonly number[],
  width: number,
  weightAt: (cell: number) => number,
  belongs: (column: number, row: number) => boolean,
): GridVector {
  let centre = centroidOf(core, width, weightAt);
  for (let round = 0; round < mostRounds; round++) {
    const balanced = core.filter((cell) => {
      const row = Math.floor(cell / width);
      const mirrorX = 2 * centre.x - (cell - row * width + 0.5);
      return belongs(Math.floor(mirrorX), Math.floor(2 * centre.y - (row + 0.5)));
    });
    if (balanced.length < leastCells) return centre;
    const next = centroidOf(balanced, width, weightAt);
    const moved = Math.abs(next.x - centre.x) + Math.abs(next.y - centre.y);
    centre = next;
    if (moved < restingPx) return centre;
  }
  return centre;
}

/** Long over short axis (root of the covariance's eigenvalues), and the long axis clockwise from x, 0 <= angle < 180. */
export function axesOf(cells: readonly number[], width: number): { elongation: number; angleDeg: number } {
  const centre = centroidOf(cells, width, () => 1);
  let xx = 0;
  let yy = 0;
  let xy = 0;
  for (const cell of cells) {
    const row = Math.floor(cell / width);
    const dx = cell - row * width + 0.5 - centre.x;
    const dy = row + 0.5 - centre.y;
    xx += dx * dx;
    yy += dy * dy;
    xy += dx * dy;
  }
  // A cell is an area, not a point: it has a variance of its own.
  const ownVariance = 1 / 12;
  const mean = (xx + yy) / 2 / cells.length + ownVariance;
  const swing = Math.sqrt(((xx - yy) / 2) ** 2 + xy * xy) / cells.length;
  const angleDeg = ((Math.atan2(2 * xy, xx - yy) / 2) * 180) / Math.PI;
  return {
    elongation: Math.sqrt((mean + swing) / (mean - swing)),
    angleDeg: angleDeg < 0 ? (angleDeg + 180) % 180 : angleDeg,
  };
}

/** How a plane fits ln of light over the cells: its slope towards more light, and the share of the variance it explains. */
export function planeOver(cells: readonly number[], logRatio: Plane): { slope: GridVector; explained: number } {
  const { width, values } = logRatio;
  const centre = centroidOf(cells, width, () => 1);
  const middle = cells.reduce((sum, cell) => sum + values[cell], 0) / cells.length;
  let [xx, yy, xy, xl, yl, ll] = [0, 0, 0, 0, 0, 0];
  for (const cell of cells) {
    const row = Math.floor(cell / width);
    const dx = cell - row * width + 0.5 - centre.x;
    const dy = row + 0.5 - centre.y;
    const light = values[cell] - middle;
    xx += dx * dx;
    yy += dy * dy;
    xy += dx * dy;
    xl += dx * light;
    yl += dy * light;
    ll += light * light;
  }
  const determinant = xx * yy - xy * xy;
  if (!(determinant > 0) || !(ll > 0)) return { slope: { x: 0, y: 0 }, explained: 0 };
  const slope = { x: (yy * xl - xy * yl) / determinant, y: (xx * yl - xy * xl) / determinant };
  return { slope, explained: (slope.x * xl + slope.y * yl) / ll };
}

/**
 * Sum of the outward directions of the outer border where the cells touch it: its length is that of the cut, cells. A region
 * that touches two opposite sides alike sums to nothing.
 */
export function borderTouched(cells: readonly number[], { inside }: SpotField): GridVector {
  const { width, height, values } = inside;
  const isOutside = (x: number, y: number): boolean =>
    x < 0 || y < 0 || x >= width || y >= height || !values[y * width + x];
  let [x, y] = [0, 0];
  for (const cell of cells) {
    const row = Math.floor(cell / width);
    const column = cell - row * width;
    for (const [dx, dy] of [
      [1, 0],
      [-1, 0],
      [0, 1],
      [0, -1],
    ]) {
      if (!isOutside(column + dx, row + dy)) continue;
      x += dx;
      y += dy;
    }
  }
  return { x, y };
}
