import { createMask, type Mask } from '../base/plane';
import type { Corners } from '../base/points';
import { windowPxPerMm } from '../reading/glow-view';
import { betweenWindows, homographyFromCorners, type Homography } from '../window/homography';

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
 * @param grid        of the present window, `pxPerMm` cells a mm; says only how large the mask is to be
 * @returns 1 = print
 * @source our own choice
 * @rule LV2
 */
export function frozenPrintAt(
  print: FrozenPrint,
  homography: Homography,
  { width, height }: Pick<Mask, 'width' | 'height'>,
  pxPerMm: number,
): Mask {
  const { width: thenWidth, height: thenHeight, values: wasCovered } = print.covered;
  const then = homographyFromCorners(print.corners, print.widthMm, print.heightMm);
  const m = betweenWindows(homography, then);
  const mask = createMask(width, height, print.isLit ? 1 : 0);
  for (let row = 0; row < height; row++) {
    const yMm = (row + 0.5) / pxPerMm;
    for (let column = 0; column < width; column++) {
      const xMm = (column + 0.5) / pxPerMm;
      const scale = windowPxPerMm / (m[6] * xMm + m[7] * yMm + m[8]);
      const x = (m[0] * xMm + m[1] * yMm + m[2]) * scale;
      const y = (m[3] * xMm + m[4] * yMm + m[5]) * scale;
      if (!(x >= 0 && y >= 0 && x < thenWidth && y < thenHeight)) continue;
      mask.values[row * width + column] = wasCovered[Math.floor(y) * thenWidth + Math.floor(x)];
    }
  }
  return mask;
}
