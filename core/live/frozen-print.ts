import { createMask, type Mask } from '../base/plane';
import type { Corners } from '../base/points';
import { windowPxPerMm } from '../reading/glow-view';
import { homographyFromCorners, type Homography } from '../window/homography';

/** The print that the last full reading found, and where that reading saw the window. */
export interface FrozenPrint {
  readonly corners: Corners;
  readonly widthMm: number;
  readonly heightMm: number;
  /** What is no glow because of print, on that reading's window; see `ReadingMaps.coveredByPrint`. */
  readonly covered: Mask;
  /** Lit figures on black: beyond that reading's window nothing glows; else nothing is printed there. */
  readonly isLit: boolean;
}

/**
 * The frozen print as it lies in the window at its present corners: print stays where it is in the photo, whatever corner is
 * dragged. Each cell takes what the cell under its centre had.
 *
 * @param homography  of the present corners
 * @param size        cells of the present window, 10 a mm
 * @returns 1 = print
 * @source our own choice
 * @rule LV2
 */
export function frozenPrintAt(print: FrozenPrint, homography: Homography, size: Pick<Mask, 'width' | 'height'>): Mask {
  const { covered } = print;
  const { width, height } = size;
  const then = homographyFromCorners(print.corners, print.widthMm, print.heightMm).toWindow;
  const now = homography.toPhoto;
  const mask = createMask(width, height);
  const outside = print.isLit ? 1 : 0;
  // One projective matrix from the present window's mm to that one's.
  const m = [0, 1, 2].map((row) =>
    [0, 1, 2].map(
      (column) =>
        then[3 * row] * now[column] + then[3 * row + 1] * now[column + 3] + then[3 * row + 2] * now[column + 6],
    ),
  );
  for (let row = 0; row < height; row++) {
    const yMm = (row + 0.5) / windowPxPerMm;
    for (let column = 0; column < width; column++) {
      const xMm = (column + 0.5) / windowPxPerMm;
      const w = m[2][0] * xMm + m[2][1] * yMm + m[2][2];
      const thenColumn = Math.floor(((m[0][0] * xMm + m[0][1] * yMm + m[0][2]) / w) * windowPxPerMm);
      const thenRow = Math.floor(((m[1][0] * xMm + m[1][1] * yMm + m[1][2]) / w) * windowPxPerMm);
      const isInside = thenColumn >= 0 && thenRow >= 0 && thenColumn < covered.width && thenRow < covered.height;
      mask.values[row * width + column] = isInside ? covered.values[thenRow * covered.width + thenColumn] : outside;
    }
  }
  return mask;
}
