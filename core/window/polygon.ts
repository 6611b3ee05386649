import { crossingSides } from '../base/crossing-sides';
import { AppError } from '../base/errors';
import { createMask, type Mask } from '../base/plane';
import type { WindowPoint } from '../base/points';
import { cellsAcross } from './rectify';

type Points = readonly WindowPoint[];

/** Slack against rounding where an edge lies exactly on a cell's border, mm. */
const slackMm = 1e-9;

function turn(a: WindowPoint, b: WindowPoint, c: WindowPoint): number {
  return (b.xMm - a.xMm) * (c.yMm - a.yMm) - (b.yMm - a.yMm) * (c.xMm - a.xMm);
}

function polygonError(code: string, message: string, remedy: string): AppError {
  return new AppError('usage', code, message, remedy);
}

function checkCrossing(points: Points): void {
  const crossing = crossingSides(points.map(({ xMm, yMm }) => [xMm, yMm] as const));
  if (!crossing) return;
  throw polygonError(
    'POLYGON_CROSSING',
    `The polygon crosses itself: the side from point ${crossing[0] + 1} meets the side from point ${crossing[1] + 1}.`,
    'Give the points in order around the area.',
  );
}

/**
 * Stops at a polygon that cannot be meant: fewer than three points, no area, sides that cross, or a point that
 * lies farther from the window than the window is long (a mix of pixels and mm, as a rule).
 *
 * @param widthMm  the window's size, for the check of far points
 * @throws AppError of kind 'usage': POLYGON_TOO_FEW_POINTS, POLYGON_OUTSIDE, POLYGON_CROSSING, POLYGON_NO_AREA
 * @source our own choice
 * @rule WN9
 */
export function checkPolygon(points: Points, widthMm: number, heightMm: number): void {
  if (points.length < 3) {
    throw polygonError(
      'POLYGON_TOO_FEW_POINTS',
      `A polygon needs at least 3 points; this one has ${points.length}.`,
      'Add the missing points, in mm from the top-left corner of the window.',
    );
  }
  const reachMm = Math.max(widthMm, heightMm);
  for (const { xMm, yMm } of points) {
    const far = Math.max(-xMm, xMm - widthMm, -yMm, yMm - heightMm);
    if (far <= reachMm) continue;
    throw polygonError(
      'POLYGON_OUTSIDE',
      `The point (${xMm}, ${yMm}) mm lies far outside the window of ${widthMm} x ${heightMm} mm.`,
      'Give points in mm from the top-left corner of the window, not in pixels.',
    );
  }
  checkCrossing(points);
  let twiceArea = 0;
  for (let i = 1; i + 1 < points.length; i++) twiceArea += turn(points[0], points[i], points[i + 1]);
  if (Math.abs(twiceArea) > slackMm) return;
  throw polygonError('POLYGON_NO_AREA', 'The polygon encloses no area.', 'Give the points around the area.');
}

/** Whether a place (mm) lies in the polygon, by the even-odd rule. @source common practice @rule WN9 */
export function isInPolygon(points: Points, xMm: number, yMm: number): boolean {
  let inside = false;
  for (let i = 0, j = points.length - 1; i < points.length; j = i++) {
    const a = points[i];
    const b = points[j];
    if (a.yMm > yMm === b.yMm > yMm) continue;
    if (xMm < a.xMm + ((yMm - a.yMm) * (b.xMm - a.xMm)) / (b.yMm - a.yMm)) inside = !inside;
  }
  return inside;
}

/** Square of the distance of a place from the segment a-b. */
function squaredDistanceToEdge(a: WindowPoint, b: WindowPoint, xMm: number, yMm: number): number {
  const edgeX = b.xMm - a.xMm;
  const edgeY = b.yMm - a.yMm;
  const squaredLength = edgeX * edgeX + edgeY * edgeY;
  const along = squaredLength > 0 ? ((xMm - a.xMm) * edgeX + (yMm - a.yMm) * edgeY) / squaredLength : 0;
  const share = Math.min(1, Math.max(0, along));
  const offX = xMm - a.xMm - share * edgeX;
  const offY = yMm - a.yMm - share * edgeY;
  return offX * offX + offY * offY;
}

/** Whether the segment a-b has a point within the cell of half side `half` about (xMm, yMm), its border left out. */
function edgeEntersCell(a: WindowPoint, b: WindowPoint, xMm: number, yMm: number, half: number): boolean {
  let from = 0;
  let to = 1;
  const slabs = [
    [a.xMm - xMm, b.xMm - a.xMm],
    [a.yMm - yMm, b.yMm - a.yMm],
  ];
  for (const [start, step] of slabs) {
    const reach = half - slackMm;
    if (step === 0) {
      if (Math.abs(start) >= reach) return false;
      continue;
    }
    const one = (-reach - start) / step;
    const other = (reach - start) / step;
    from = Math.max(from, Math.min(one, other));
    to = Math.min(to, Math.max(one, other));
  }
  return from < to;
}

/** Whether any side of the polygon runs through the cell. */
function anyEdgeEnters(points: Points, xMm: number, yMm: number, half: number): boolean {
  for (let i = 0, j = points.length - 1; i < points.length; j = i++) {
    if (edgeEntersCell(points[j], points[i], xMm, yMm, half)) return true;
  }
  return false;
}

/** Distance of a cell (half = 0: of a place) that no side runs through from the polygon's sides, mm. */
function distanceToEdgesMm(points: Points, xMm: number, yMm: number, half: number): number {
  let nearest = Infinity;
  for (let i = 0, j = points.length - 1; i < points.length; j = i++) {
    const a = points[j];
    const b = points[i];
    nearest = Math.min(
      nearest,
      squaredDistanceToEdge(a, b, xMm - half, yMm - half),
      squaredDistanceToEdge(a, b, xMm + half, yMm - half),
      squaredDistanceToEdge(a, b, xMm + half, yMm + half),
      squaredDistanceToEdge(a, b, xMm - half, yMm + half),
    );
    // A vertex may be nearest to a side of the cell rather than to a corner of it.
    const offX = Math.max(0, Math.abs(a.xMm - xMm) - half);
    const offY = Math.max(0, Math.abs(a.yMm - yMm) - half);
    nearest = Math.min(nearest, offX * offX + offY * offY);
  }
  return Math.sqrt(nearest);
}

/** When a cell counts as in a polygon: the whole of it, its centre, or any part of it. */
export type CellRule = 'whole' | 'centre' | 'touch';

function cellCounts(points: Points, xMm: number, yMm: number, half: number, erodeMm: number, rule: CellRule): boolean {
  const inside = isInPolygon(points, xMm, yMm);
  if (rule === 'touch') return inside || anyEdgeEnters(points, xMm, yMm, half);
  if (!inside) return false;
  const halfThatCounts = rule === 'whole' ? half : 0;
  if (rule === 'whole' && anyEdgeEnters(points, xMm, yMm, half)) return false;
  return erodeMm === 0 || distanceToEdgesMm(points, xMm, yMm, halfThatCounts) >= erodeMm - slackMm;
}

/**
 * Which cells lie in a polygon, shrunk by `erodeMm` measured straight from its sides. The mask's grid is that of
 * `RectifiedWindow`. The polygon should have passed `checkPolygon`.
 *
 * @param erodeMm  0 or more; has no part in the rule 'touch'
 * @source our own choice (geometry)
 * @rule WN9
 */
export function polygonMask(
  points: Points,
  widthMm: number,
  heightMm: number,
  pxPerMm: number,
  rule: CellRule,
  erodeMm = 0,
): Mask {
  const mask = createMask(cellsAcross(widthMm, pxPerMm), cellsAcross(heightMm, pxPerMm));
  const half = 0.5 / pxPerMm;
  for (let row = 0; row < mask.height; row++) {
    const yMm = (row + 0.5) / pxPerMm;
    for (let column = 0; column < mask.width; column++) {
      const xMm = (column + 0.5) / pxPerMm;
      if (cellCounts(points, xMm, yMm, half, erodeMm, rule)) mask.values[row * mask.width + column] = 1;
    }
  }
  return mask;
}
