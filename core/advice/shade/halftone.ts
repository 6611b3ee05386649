import type { Plane } from '../../base/plane';
import { dotAreaOf } from './transmission';

/** A square dot, mm from the window's top-left corner. */
export interface Dot {
  readonly xMm: number;
  readonly yMm: number;
  readonly sideMm: number;
}

/** What the black of an office printer on film lets through; the strip on the sheet shows how it really is. */
export const inkTransmission = 0.02;

/** Value at a place in mm, between the middles of cells (bilinear). */
function valueAt({ width, height, values }: Plane, pxPerMm: number, xMm: number, yMm: number): number {
  const x = Math.min(Math.max(xMm * pxPerMm - 0.5, 0), width - 1);
  const y = Math.min(Math.max(yMm * pxPerMm - 0.5, 0), height - 1);
  const [left, top] = [Math.min(Math.floor(x), width - 2), Math.min(Math.floor(y), height - 2)];
  const at = (column: number, row: number): number => values[row * width + column];
  const [s, t] = [x - left, y - top];
  return (
    (1 - t) * ((1 - s) * at(left, top) + s * at(left + 1, top)) +
    t * ((1 - s) * at(left, top + 1) + s * at(left + 1, top + 1))
  );
}

/** Smaller dots are lost in printing, mm. */
const leastSideMm = 0.05;

/**
 * The dots of a halftone: squares on a square grid, each as large as the ink's share of its cell. Squares, since they fill a
 * cell without running into each other.
 *
 * @param transmission 0..1, on the window's grid
 * @param pitchMm      distance of the dots
 * @source dotAreaOf; the shape of the dots is our own choice
 * @rule AV8
 */
export function halftoneDots(
  transmission: Plane,
  pxPerMm: number,
  size: { readonly widthMm: number; readonly heightMm: number },
  pitchMm: number,
): Dot[] {
  const dots: Dot[] = [];
  for (let y = pitchMm / 2; y < size.heightMm; y += pitchMm) {
    for (let x = pitchMm / 2; x < size.widthMm; x += pitchMm) {
      const sideMm = pitchMm * Math.sqrt(dotAreaOf(valueAt(transmission, pxPerMm, x, y), inkTransmission));
      if (sideMm >= leastSideMm) dots.push({ xMm: x - sideMm / 2, yMm: y - sideMm / 2, sideMm });
    }
  }
  return dots;
}
