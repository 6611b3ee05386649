import type { LinearPhoto } from '../base/linear-photo';
import type { Homography } from './homography';

/** Sums of the samples of the cells of one row of the map; `count` stays below k * k where the photo does not reach. */
export interface RowSums {
  readonly rgb: Float64Array;
  readonly flags: Uint8Array;
  readonly count: Uint32Array;
}

/** Where the samples of a line lie in the region: (x0 + x1 t, y0 + y1 t) / (w0 + w1 t), t = 0, 1, 2... */
interface SampleLine {
  readonly x0: number;
  readonly x1: number;
  readonly y0: number;
  readonly y1: number;
  readonly w0: number;
  readonly w1: number;
}

function sampleLineOf(homography: Homography, { region, reducedBy = 1 }: LinearPhoto, yMm: number, stepMm: number) {
  const m = homography.toPhoto;
  const { column, row } = region;
  const w1 = m[6] * stepMm;
  const w0 = w1 / 2 + m[7] * yMm + m[8];
  const x1 = (m[0] * stepMm - column * w1) / reducedBy;
  const y1 = (m[3] * stepMm - row * w1) / reducedBy;
  const x0 = x1 / 2 + (m[1] * yMm + m[2] - column * (m[7] * yMm + m[8])) / reducedBy;
  const y0 = y1 / 2 + (m[4] * yMm + m[5] - row * (m[7] * yMm + m[8])) / reducedBy;
  return { x0, x1, y0, y1, w0, w1 };
}

interface GridSize {
  readonly width: number;
  readonly height: number;
}

/** Pixels of `rgb` across and down. */
function gridOf({ region, reducedBy = 1 }: LinearPhoto): GridSize {
  return { width: Math.round(region.width / reducedBy), height: Math.round(region.height / reducedBy) };
}

/** Whether every sample of a line has four photo pixels about it: both ends have, and a line stays a line in the photo. */
function liesInside({ x0, x1, y0, y1, w0, w1 }: SampleLine, last: number, { width, height }: GridSize): boolean {
  if (!(w0 > 0 && w0 + w1 * last > 0)) return false;
  return [0, last].every((t) => {
    const column = (x0 + x1 * t) / (w0 + w1 * t);
    const row = (y0 + y1 * t) / (w0 + w1 * t);
    // The slack is for rounding between the ends.
    return column >= 0.501 && row >= 0.501 && column <= width - 0.501 && row <= height - 0.501;
  });
}

/** Adds one line of samples, `k` a cell, all inside. Without calls or allocation: this loop runs millions of times. */
function addInnerLine(photo: LinearPhoto, line: SampleLine, k: number, sums: RowSums): void {
  const { rgb, flags } = photo;
  const { width } = gridOf(photo);
  const { x0, x1, y0, y1, w0, w1 } = line;
  const below = 3 * width;
  const cells = sums.count.length;
  for (let cell = 0, sample = 0; cell < cells; cell++) {
    let red = 0;
    let green = 0;
    let blue = 0;
    let seen = 0;
    for (let s = 0; s < k; s++, sample++) {
      const w = 1 / (w0 + w1 * sample);
      const column = (x0 + x1 * sample) * w;
      const row = (y0 + y1 * sample) * w;
      const left = (column - 0.5) | 0;
      const top = (row - 0.5) | 0;
      const shareRight = column - 0.5 - left;
      const shareBelow = row - 0.5 - top;
      const at = (Math.imul(top, below) + Math.imul(left, 3)) | 0;
      const under = (at + below) | 0;
      const w11 = shareRight * shareBelow;
      const w01 = shareRight - w11;
      const w10 = shareBelow - w11;
      const w00 = 1 - shareRight - w10;
      red += w00 * rgb[at] + w01 * rgb[at + 3] + w10 * rgb[under] + w11 * rgb[under + 3];
      green += w00 * rgb[at + 1] + w01 * rgb[at + 4] + w10 * rgb[under + 1] + w11 * rgb[under + 4];
      blue += w00 * rgb[at + 2] + w01 * rgb[at + 5] + w10 * rgb[under + 2] + w11 * rgb[under + 5];
      seen |= flags[(Math.imul(row | 0, width) + (column | 0)) | 0];
    }
    sums.rgb[3 * cell] += red;
    sums.rgb[3 * cell + 1] += green;
    sums.rgb[3 * cell + 2] += blue;
    sums.flags[cell] |= seen;
    sums.count[cell] += k;
  }
}

/** As `addInnerLine`, for lines that leave the region: the outermost half pixel repeats the edge, beyond there is nothing. */
function addOuterLine(photo: LinearPhoto, line: SampleLine, k: number, sums: RowSums): void {
  const { rgb, flags } = photo;
  const { width, height } = gridOf(photo);
  const { x0, x1, y0, y1, w0, w1 } = line;
  const lastColumn = width - 1;
  const lastRow = height - 1;
  for (let sample = 0; sample < k * sums.count.length; sample++) {
    const column = (x0 + x1 * sample) / (w0 + w1 * sample);
    const row = (y0 + y1 * sample) / (w0 + w1 * sample);
    if (!(column >= 0 && row >= 0 && column <= width && row <= height)) continue;
    const fromLeft = Math.min(Math.max(column - 0.5, 0), lastColumn);
    const fromTop = Math.min(Math.max(row - 0.5, 0), lastRow);
    const left = Math.floor(fromLeft);
    const top = Math.floor(fromTop);
    const shareRight = fromLeft - left;
    const shareBelow = fromTop - top;
    const at = 3 * (top * width + left);
    const right = left < lastColumn ? 3 : 0;
    const below = top < lastRow ? 3 * width : 0;
    const cell = Math.floor(sample / k);
    for (let c = 0; c < 3; c++) {
      const ofTop = (1 - shareRight) * rgb[at + c] + shareRight * rgb[at + right + c];
      const ofBottom = (1 - shareRight) * rgb[at + below + c] + shareRight * rgb[at + below + right + c];
      sums.rgb[3 * cell + c] += (1 - shareBelow) * ofTop + shareBelow * ofBottom;
    }
    sums.flags[cell] |= flags[Math.min(Math.floor(row), lastRow) * width + Math.min(Math.floor(column), lastColumn)];
    sums.count[cell] += 1;
  }
}

/**
 * Adds one line of bilinear samples, `k` a cell of the row, to the sums of its cells: light of the three channels, the
 * flags of the pixels that hold the samples, and how many samples lie in the region.
 *
 * @param yMm     height of the line on the window
 * @param stepMm  from sample to sample; the first lies half a step from the window's left side
 * @rule WN3
 */
export function addSampleLine(
  photo: LinearPhoto,
  homography: Homography,
  yMm: number,
  stepMm: number,
  k: number,
  sums: RowSums,
): void {
  const line = sampleLineOf(homography, photo, yMm, stepMm);
  const isInside = liesInside(line, k * sums.count.length - 1, gridOf(photo));
  (isInside ? addInnerLine : addOuterLine)(photo, line, k, sums);
}
