import type { Plane } from '../../base/plane';

/** A place in mm from the window's top-left corner. */
export type PointMm = readonly [number, number];

/** Sides of a square of four cell middles that a line crosses, by which of them lie below: bits 1 2 4 8 from the top left, clockwise. */
const crossings: readonly (readonly (readonly [number, number])[])[] = [
  [], [[3, 0]], [[0, 1]], [[3, 1]], [[1, 2]], [[3, 0], [1, 2]], [[0, 2]], [[3, 2]],
  [[2, 3]], [[2, 0]], [[0, 1], [2, 3]], [[2, 1]], [[1, 3]], [[1, 0]], [[0, 3]], [],
]; // prettier-ignore

const sides = [[0, 0, 1, 0], [1, 0, 1, 1], [0, 1, 1, 1], [0, 0, 0, 1]] as const; // prettier-ignore

/**
 * Lines along which a plane has a value, as short pieces between the middles of cells; the window's edge closes nothing.
 *
 * @source marching squares, common practice
 * @rule AV8
 */
export function levelLines({ width, height, values }: Plane, pxPerMm: number, level: number): [PointMm, PointMm][] {
  const pieces: [PointMm, PointMm][] = [];
  const at = (column: number, row: number): number => values[row * width + column];
  for (let row = 0; row + 1 < height; row++) {
    for (let column = 0; column + 1 < width; column++) {
      const corners = [at(column, row), at(column + 1, row), at(column + 1, row + 1), at(column, row + 1)];
      const which = corners.reduce((bits, value, i) => bits + (value < level ? 1 << i : 0), 0);
      const pointOn = (side: number): PointMm => {
        const [x0, y0, x1, y1] = sides[side];
        const [from, to] = [at(column + x0, row + y0), at(column + x1, row + y1)];
        const share = (level - from) / (to - from);
        return [(column + 0.5 + x0 + share * (x1 - x0)) / pxPerMm, (row + 0.5 + y0 + share * (y1 - y0)) / pxPerMm];
      };
      for (const [from, to] of crossings[which]) pieces.push([pointOn(from), pointOn(to)]);
    }
  }
  return pieces;
}
