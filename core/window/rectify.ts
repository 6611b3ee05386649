import type { LinearPhoto, PixelRegion } from '../base/linear-photo';
import * as flag from '../base/linear-photo';
import { createMask, createPlane, type Mask } from '../base/plane';
import type { Corners } from '../base/points';
import { type Homography, localScale } from './homography';
import type { RectifiedWindow } from './rectified';
import { addSampleLine, type RowSums } from './sample-lines';

/** Samples a cell and side: enough that no photo pixel is stepped over anywhere in the window. */
function samplesPerSide(homography: Homography, widthMm: number, heightMm: number, cellsPerMm: number): number {
  let largest = 0;
  for (const xMm of [0, widthMm]) {
    for (const yMm of [0, heightMm]) {
      const { alongX, alongY } = localScale(homography, { xMm, yMm });
      largest = Math.max(largest, alongX, alongY);
    }
  }
  // Without the allowance, rounding would blur a photo that already has the map's own grid.
  return Math.max(1, Math.ceil(largest / cellsPerMm - 1e-6));
}

/** In the order of the masks below. */
const flagBits = [flag.redClipped, flag.greenClipped, flag.blueClipped, flag.outsideGamut] as const;

function markFlags(masks: readonly Mask[], at: number, flags: number): void {
  for (let i = 0; i < flagBits.length; i++) if (flags & flagBits[i]) masks[i].values[at] = 1;
}

/**
 * The window seen straight on, in linear light.
 *
 * Each cell is the mean of k x k bilinear samples spread evenly over it, k = ceil(photo px per cell) at the most
 * finely seen corner, so that the whole area of the cell counts and nothing is stepped over. Pixel (c, r) covers
 * [c, c+1) x [r, r+1): a photo that already has the map's grid comes back unchanged.
 * A cell of which any sample lies outside the decoded region is NaN.
 *
 * @param photo      a region that holds the window (see `photoRegionFor`); not altered
 * @param homography photo px to mm and back
 * @param pxPerMm    cells a mm of the result, 10 for print, 4 for evenness
 * @source common practice (supersampling with a box filter, in linear light)
 * @rule WN3
 */
export function rectifyWindow(
  photo: LinearPhoto,
  homography: Homography,
  widthMm: number,
  heightMm: number,
  pxPerMm: number,
): RectifiedWindow {
  const width = cellsAcross(widthMm, pxPerMm);
  const height = cellsAcross(heightMm, pxPerMm);
  const [red, green, blue] = [0, 1, 2].map(() => createPlane(width, height, NaN));
  const masks = [0, 1, 2, 3].map(() => createMask(width, height));
  const k = samplesPerSide(homography, widthMm, heightMm, pxPerMm * (photo.reducedBy ?? 1));
  const stepMm = 1 / (pxPerMm * k);
  const all = k * k;
  const sums: RowSums = {
    rgb: new Float64Array(3 * width),
    flags: new Uint8Array(width),
    count: new Uint32Array(width),
  };
  for (let row = 0; row < height; row++) {
    sums.rgb.fill(0);
    sums.flags.fill(0);
    sums.count.fill(0);
    for (let s = 0; s < k; s++) {
      addSampleLine(photo, homography, (row * k + s + 0.5) * stepMm, stepMm, k, sums);
    }
    for (let column = 0, at = row * width; column < width; column++, at++) {
      if (sums.flags[column]) markFlags(masks, at, sums.flags[column]);
      if (sums.count[column] < all) continue;
      red.values[at] = sums.rgb[3 * column] / all;
      green.values[at] = sums.rgb[3 * column + 1] / all;
      blue.values[at] = sums.rgb[3 * column + 2] / all;
    }
  }
  const [redClipped, greenClipped, blueClipped, outsideGamut] = masks;
  return { pxPerMm, widthMm, heightMm, red, green, blue, redClipped, greenClipped, blueClipped, outsideGamut };
}

/**
 * How many cells a length in mm takes: ceil(pxPerMm * lengthMm), at least 1, with an allowance for rounding
 * (18.3 mm at 10 cells a mm are 183 cells although the product is 183.00000000000003).
 *
 * @source our own choice
 * @rule WN3
 */
export function cellsAcross(lengthMm: number, pxPerMm: number): number {
  return Math.max(1, Math.ceil(lengthMm * pxPerMm - 1e-6));
}

/**
 * The rectangle of whole pixels that holds the window, to be decoded: the corners' bounding box, widened by a margin
 * and cut to the photo.
 *
 * @param marginPx  0 or more: 2 for the bilinear reach, and as many photo pixels as a cell of the map spans, because
 *                  the last cells stick out of the window by less than one cell
 * @returns at least one pixel wide and high
 * @source our own choice
 * @rule WN3
 */
export function photoRegionFor(
  corners: Corners,
  photoWidthPx: number,
  photoHeightPx: number,
  marginPx: number,
): PixelRegion {
  const columns = corners.map(({ column }) => column);
  const rows = corners.map(({ row }) => row);
  const clamp = (value: number, limit: number) => Math.min(Math.max(value, 0), limit);
  const column = clamp(Math.floor(Math.min(...columns) - marginPx), photoWidthPx - 1);
  const row = clamp(Math.floor(Math.min(...rows) - marginPx), photoHeightPx - 1);
  const endColumn = clamp(Math.ceil(Math.max(...columns) + marginPx), photoWidthPx);
  const endRow = clamp(Math.ceil(Math.max(...rows) + marginPx), photoHeightPx);
  return { column, row, width: Math.max(1, endColumn - column), height: Math.max(1, endRow - row) };
}
