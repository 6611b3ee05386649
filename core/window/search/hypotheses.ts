import type { PhotoPoint } from '../../base/points';
import type { BrightRegion } from './bright-regions';
import { type SearchPass, type OutlinePlace } from './edge-search';
import { type Ellipse, ellipseOfPart, ellipsePlaces, fitEllipse, halfAxes, halfDiameters } from './fit-ellipse';
import { fitQuad, fitSide, sidePlaces } from './fit-quad';
import { areaOf, boxAbout, distanceOf, quadAbout, spreadAlong, straightRun } from './hull';

/** An outline fitted to a bright region. */
export type FittedOutline =
  | { readonly outline: 'rectangle'; readonly corners: readonly PhotoPoint[] }
  | {
      readonly outline: 'ellipse';
      readonly ellipse: Ellipse;
      /** Direction that the face's own horizontal has in the photo: that of a cover's edge, else the photo's. */
      readonly direction: readonly [number, number];
      readonly covered: boolean;
    };

/** A hull that fills less of its four sides is round (0.79) or no window. */
const leastQuadShare = 0.8;
const hullPoints = 96;
/** Places for the evidence, about so many in all. */
const evidencePlaces = 96;
/** And so many on the shortest side, that its share of places with an edge means something. */
const leastSidePlaces = 12;
const rimParts = 8;

/** Shorter of the mean lengths of opposite sides, px. */
export function shortSideOf([a, b, c, d]: readonly PhotoPoint[]): number {
  return Math.min(distanceOf(a, b) + distanceOf(d, c), distanceOf(a, d) + distanceOf(b, c)) / 2;
}

/** Passes from a wide look on the reduced light to a narrow one on the photo's pixels. */
export type PassesFor = (shortSidePx: number) => readonly SearchPass[];

function movedOnto(
  region: BrightRegion,
  start: readonly PhotoPoint[] | null,
  passesFor: PassesFor,
): FittedOutline | null {
  if (!start || region.areaPx < leastQuadShare * areaOf(start)) return null;
  let corners: readonly PhotoPoint[] | null = start;
  for (const pass of passesFor(shortSideOf(start))) {
    if (!corners) return null;
    corners = fitQuad(corners, pass);
  }
  return corners && { outline: 'rectangle', corners };
}

/** Four sides on the edges about a region: begun from its hull's own sides, and from the upright box about it. */
export function fitRectangles(region: BrightRegion, passesFor: PassesFor): FittedOutline[] {
  return [quadAbout(region.hull), boxAbout(region.hull)].flatMap((start) => {
    const fitted = movedOnto(region, start, passesFor);
    return fitted ? [fitted] : [];
  });
}

/** The direction of a cover's edge, refined; that of the photo's rows without one. */
function coverDirection(
  run: { readonly from: PhotoPoint; readonly to: PhotoPoint } | null,
  passes: readonly SearchPass[],
): readonly [number, number] {
  if (!run) return [1, 0];
  let { from, to } = run;
  for (const pass of passes.slice(-3)) [from, to] = fitSide(from, to, pass);
  const length = distanceOf(from, to);
  return [(to.column - from.column) / length, (to.row - from.row) / length];
}

/** Ellipses on the edges about a region, looked for far about its hull and near it: a bezel may have more than one rim. */
export function fitRounds(region: BrightRegion, passesFor: PassesFor): FittedOutline[] {
  const points = spreadAlong(region.hull, hullPoints);
  const start = ellipseOfPart(points);
  if (!start) return [];
  const run = straightRun(points);
  const passes = passesFor(2 * halfAxes(start).shortPx);
  const direction = coverDirection(run, passes);
  return [passes, passes.slice(2)].flatMap((chosen) => {
    let ellipse: Ellipse | null = start;
    for (const pass of chosen) ellipse = ellipse && fitEllipse(ellipse, pass);
    return ellipse ? [{ outline: 'ellipse' as const, ellipse, direction, covered: run !== null }] : [];
  });
}

/** Corners of the four sides, or of the parallelogram about the ellipse, clockwise. @rule WN16 */
export function cornersOf(fitted: FittedOutline): readonly PhotoPoint[] {
  if (fitted.outline === 'rectangle') return fitted.corners;
  const { centre } = fitted.ellipse;
  const { across, down } = halfDiameters(fitted.ellipse, ...fitted.direction);
  return [
    [-1, -1],
    [1, -1],
    [1, 1],
    [-1, 1],
  ].map(([u, v]) => ({
    column: centre.column + u * across[0] + v * down[0],
    row: centre.row + u * across[1] + v * down[1],
  }));
}

/** Places evenly along a fitted outline, by its four sides or by the eighths of its rim. */
export function placesOf(fitted: FittedOutline): OutlinePlace[][] {
  if (fitted.outline === 'ellipse') {
    const places = ellipsePlaces(fitted.ellipse);
    const each = places.length / rimParts;
    return Array.from({ length: rimParts }, (_, i) => places.slice(i * each, (i + 1) * each));
  }
  const { corners } = fitted;
  const lengths = corners.map((corner, i) => distanceOf(corner, corners[(i + 1) % 4]));
  const around = lengths.reduce((sum, length) => sum + length, 0);
  return corners.map((corner, i) => {
    const count = Math.max(leastSidePlaces, Math.round((evidencePlaces * lengths[i]) / around));
    return sidePlaces(corner, corners[(i + 1) % 4], count, 0.04);
  });
}
