import type { PhotoPoint } from '../../base/points';

/** Twice the area of the triangle, positive when a, b, c turn clockwise on the screen. */
export function turnOf(a: PhotoPoint, b: PhotoPoint, c: PhotoPoint): number {
  return (b.column - a.column) * (c.row - a.row) - (b.row - a.row) * (c.column - a.column);
}

/** Area of a polygon, px^2, positive when it runs clockwise on the screen. @source shoelace formula @rule WN14 */
export function areaOf(polygon: readonly PhotoPoint[]): number {
  let twice = 0;
  polygon.forEach((a, i) => {
    const b = polygon[(i + 1) % polygon.length];
    twice += a.column * b.row - a.row * b.column;
  });
  return twice / 2;
}

export function distanceOf(a: PhotoPoint, b: PhotoPoint): number {
  return Math.hypot(b.column - a.column, b.row - a.row);
}

/** One chain of the hull, for points in order of column. */
function chainOf(points: readonly PhotoPoint[]): PhotoPoint[] {
  const chain: PhotoPoint[] = [];
  for (const point of points) {
    while (chain.length > 1 && turnOf(chain[chain.length - 2], chain[chain.length - 1], point) <= 0) chain.pop();
    chain.push(point);
  }
  chain.pop();
  return chain;
}

/**
 * The convex hull, clockwise on the screen, without points on straight sides.
 *
 * @source Andrew's monotone chain, 1979 (from memory)
 * @rule WN14
 */
export function convexHull(points: readonly PhotoPoint[]): PhotoPoint[] {
  const sorted = [...points].sort((a, b) => a.column - b.column || a.row - b.row);
  return [...chainOf(sorted), ...chainOf(sorted.reverse())];
}

/** Where the lines a-b and c-d cross; null when they hardly do. */
export function crossingOf(a: PhotoPoint, b: PhotoPoint, c: PhotoPoint, d: PhotoPoint): PhotoPoint | null {
  const [abX, abY] = [b.column - a.column, b.row - a.row];
  const [cdX, cdY] = [d.column - c.column, d.row - c.row];
  const cross = abX * cdY - abY * cdX;
  // Within about half a degree of parallel the crossing is anywhere.
  if (Math.abs(cross) < 0.01 * Math.hypot(abX, abY) * Math.hypot(cdX, cdY)) return null;
  const along = ((c.column - a.column) * cdY - (c.row - a.row) * cdX) / cross;
  return { column: a.column + along * abX, row: a.row + along * abY };
}

/** The corner that takes the place of a side when its neighbours are made longer, and the area that it adds. */
function withoutSide(hull: readonly PhotoPoint[], i: number): { corner: PhotoPoint; added: number } | null {
  const n = hull.length;
  const [before, from, to, after] = [hull[(i + n - 1) % n], hull[i], hull[(i + 1) % n], hull[(i + 2) % n]];
  const corner = crossingOf(before, from, after, to);
  if (!corner) return null;
  const added = turnOf(from, corner, to) / 2;
  return added >= 0 ? { corner, added } : null;
}

/**
 * Four sides about a convex hull: sides are taken out one by one, each time the one whose neighbours, made longer, add
 * the least area.
 *
 * @param hull  clockwise, 4 points or more
 * @returns four points, clockwise; null when the hull cannot be reduced so far
 * @source our own choice (greedy)
 * @rule WN14
 */
export function quadAbout(hull: readonly PhotoPoint[]): PhotoPoint[] | null {
  let sides = [...hull];
  while (sides.length > 4) {
    let best: { corner: PhotoPoint; added: number; at: number } | null = null;
    for (let i = 0; i < sides.length; i++) {
      const found = withoutSide(sides, i);
      if (found && (!best || found.added < best.added)) best = { ...found, at: i };
    }
    if (!best) return null;
    const { at, corner } = best;
    const next = (at + 1) % sides.length;
    sides = sides.map((point, i) => (i === at ? corner : point)).filter((_, i) => i !== next);
  }
  return sides.length === 4 ? sides : null;
}

/**
 * The smallest rectangle about a convex hull that has a side on one of the hull's, clockwise.
 *
 * @source our own choice (rotating calipers, without the speed)
 * @rule WN14
 */
export function boxAbout(hull: readonly PhotoPoint[]): PhotoPoint[] {
  let best: PhotoPoint[] = [];
  let leastArea = Infinity;
  hull.forEach((a, i) => {
    const b = hull[(i + 1) % hull.length];
    const length = distanceOf(a, b);
    const [x, y] = [(b.column - a.column) / length, (b.row - a.row) / length];
    let [left, right, top, bottom] = [Infinity, -Infinity, Infinity, -Infinity];
    for (const { column, row } of hull) {
      const along = x * column + y * row;
      const across = -y * column + x * row;
      left = Math.min(left, along);
      right = Math.max(right, along);
      top = Math.min(top, across);
      bottom = Math.max(bottom, across);
    }
    const area = (right - left) * (bottom - top);
    if (area >= leastArea) return;
    leastArea = area;
    best = [
      [left, top],
      [right, top],
      [right, bottom],
      [left, bottom],
    ].map(([along, across]) => ({ column: x * along - y * across, row: y * along + x * across }));
  });
  return best;
}

/**
 * Points spread evenly along a polygon's sides.
 *
 * @param count  how many in all
 * @source our own choice
 * @rule WN14
 */
export function spreadAlong(polygon: readonly PhotoPoint[], count: number): PhotoPoint[] {
  const lengths = polygon.map((a, i) => distanceOf(a, polygon[(i + 1) % polygon.length]));
  const step = lengths.reduce((sum, length) => sum + length, 0) / count;
  const points: PhotoPoint[] = [];
  let left = step / 2;
  polygon.forEach((a, i) => {
    const b = polygon[(i + 1) % polygon.length];
    for (; left < lengths[i]; left += step) {
      const share = left / lengths[i];
      points.push({ column: a.column + share * (b.column - a.column), row: a.row + share * (b.row - a.row) });
    }
    left -= lengths[i];
  });
  return points;
}

/** Points on a stretch of the outline whose greatest distance from its chord is below that share of the outline's size. */
const straightShare = 0.012;
/** A circle has stretches that straight of 0.22 of its diameter; a cover's edge is longer. */
const leastRunShare = 0.4;

/** A straight stretch of an outline: the points of it, and its ends. */
export interface StraightRun {
  readonly from: PhotoPoint;
  readonly to: PhotoPoint;
  readonly rest: readonly PhotoPoint[];
}

/**
 * The longest straight stretch of an outline, when it is too long for a round one.
 *
 * @param points  spread evenly along the outline, clockwise
 * @returns null when no stretch is longer than 0.4 of the diameter of the circle of the same area
 * @source our own choice
 * @rule WN14
 */
export function straightRun(points: readonly PhotoPoint[]): StraightRun | null {
  const n = points.length;
  const size = Math.sqrt((4 * areaOf(points)) / Math.PI);
  let best = { start: 0, count: 0, length: leastRunShare * size };
  for (let start = 0; start < n; start++) {
    let count = 2;
    while (count < n / 2 && isStraight(points, start, count + 1, straightShare * size)) count++;
    const length = distanceOf(points[start], points[(start + count - 1) % n]);
    if (length > best.length) best = { start, count, length };
  }
  if (best.count === 0) return null;
  const { start, count } = best;
  const rest = Array.from({ length: n - count }, (_, i) => points[(start + count + i) % n]);
  return { from: points[start], to: points[(start + count - 1) % n], rest };
}

function isStraight(points: readonly PhotoPoint[], start: number, count: number, leastPx: number): boolean {
  const n = points.length;
  const from = points[start];
  const to = points[(start + count - 1) % n];
  const length = distanceOf(from, to);
  for (let i = 1; i < count - 1; i++) {
    if (Math.abs(turnOf(from, to, points[(start + i) % n])) > leastPx * length) return false;
  }
  return true;
}
