import type { PhotoPoint } from '../../base/points';
import { edgeAt, type OutlinePlace, type SearchPass } from './edge-search';
import { crossingOf, distanceOf } from './hull';
import { robustLine } from './robust-line';

/** Places along each side where its edge is looked for. */
const placesPerSide = 40;
/** Corners may be round, and a neighbour's edge is near: this share of the side at each end is left alone. */
const cornerShare = 0.05;
/** An edge is not known better than that, px: keeps the weights steady on drawn pictures. */
const leastDeviationPx = 0.3;

/** Places along the side from `a` to `b` of a clockwise outline, ends left out. */
export function sidePlaces(a: PhotoPoint, b: PhotoPoint, count: number, endShare: number): OutlinePlace[] {
  const length = distanceOf(a, b);
  const outX = (b.row - a.row) / length;
  const outY = -(b.column - a.column) / length;
  return Array.from({ length: count }, (_, i) => {
    const along = endShare + ((1 - 2 * endShare) * (i + 0.5)) / count;
    const at = { column: a.column + along * (b.column - a.column), row: a.row + along * (b.row - a.row) };
    return { at, outX, outY };
  });
}

/** The side from `a` to `b`, moved onto the edge. */
export function fitSide(a: PhotoPoint, b: PhotoPoint, pass: SearchPass): [PhotoPoint, PhotoPoint] {
  const places = sidePlaces(a, b, placesPerSide, cornerShare);
  const points = places.flatMap((place, i) => {
    const found = edgeAt(place, pass);
    const along = cornerShare + ((1 - 2 * cornerShare) * (i + 0.5)) / placesPerSide;
    return found ? [{ along, offsetPx: found.offsetPx }] : [];
  });
  const line = robustLine(points, leastDeviationPx);
  if (!line) return [a, b];
  const { outX, outY } = places[0];
  return [
    { column: a.column + line.startPx * outX, row: a.row + line.startPx * outY },
    { column: b.column + line.endPx * outX, row: b.row + line.endPx * outY },
  ];
}

/**
 * Four corners, moved so that each side lies on the strongest edge near it.
 *
 * @param corners  clockwise on the screen
 * @returns clockwise; null when two neighbouring sides no longer cross
 * @source our own choice (robust lines through edges)
 * @rule WN15
 */
export function fitQuad(corners: readonly PhotoPoint[], pass: SearchPass): PhotoPoint[] | null {
  const sides = corners.map((corner, i) => fitSide(corner, corners[(i + 1) % 4], pass));
  const moved = sides.map(([a, b], i) => {
    const [c, d] = sides[(i + 3) % 4];
    return crossingOf(c, d, a, b);
  });
  return moved.every((corner) => corner !== null) ? moved : null;
}
