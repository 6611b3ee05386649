import { srgbFromLinear } from '../colour/transfer';
import type { Encoding } from '../contract/light';
import type { DecodedPhoto, PixelRegion } from './decoded-photo';
import { linearisePhoto } from './linearise';
import { partOf } from './reduced';

/** Linear light of this many pixels is held at a time: 12 bytes each. */
const stripPixels = 1_000_000;

/** Linear sRGB, interleaved, 1 = full scale, unclipped. */
export interface MeanLight {
  readonly width: number;
  readonly height: number;
  readonly rgb: Float32Array;
}

/** Where each source pixel goes: the cell that it begins in, and its share there; the rest is the next cell's. */
function sharesOf(from: number, to: number): { cell: Int32Array; share: Float32Array } {
  const cell = new Int32Array(from);
  const share = new Float32Array(from);
  for (let i = 0; i < from; i++) {
    cell[i] = Math.min(to - 1, Math.floor((i * to) / from));
    // Where the next cell begins, in source pixels: a pixel across it is shared.
    share[i] = Math.min(1, ((cell[i] + 1) * from) / to - i);
  }
  return { cell, share };
}

/**
 * The light of a decoded photo on a coarser grid: cell (c, r) of the answer is the mean over exactly the area
 * [c W/w, (c+1) W/w) x [r H/h, (r+1) H/h) of the photo's W x H pixels, pixels on a border shared by area. So the answer
 * lies on the photo without a shift, whatever the ratio. Light is linear, by strips: a large photo is never held in light.
 *
 * @param decoded  not altered
 * @param width,height  of the answer, 1 up to those of the photo
 * @throws RangeError  for an answer that is larger than the photo (a defect)
 * @source common practice (area averaging in linear light)
 * @rule PX13
 */
export function meanLight(decoded: DecodedPhoto, encoding: Encoding, width: number, height: number): MeanLight {
  const { region } = decoded;
  if (!(width >= 1 && width <= region.width && height >= 1 && height <= region.height)) {
    throw new RangeError(`${width}x${height} means of ${region.width}x${region.height} pixels`);
  }
  const isWhole = width === region.width && height === region.height;
  const across = sharesOf(region.width, width);
  const down = sharesOf(region.height, height);
  const sums = new Float32Array(width * height * 3);
  const rowSums = new Float64Array((width + 1) * 3);
  const rows = Math.max(1, Math.floor(stripPixels / region.width));
  for (let top = 0; top < region.height; top += rows) {
    const strip: PixelRegion = {
      column: region.column,
      row: region.row + top,
      width: region.width,
      height: Math.min(rows, region.height - top),
    };
    const { rgb } = linearisePhoto(partOf(decoded, strip), encoding, false);
    if (isWhole) {
      sums.set(rgb, 3 * top * width);
      continue;
    }
    for (let row = 0; row < strip.height; row++) {
      addRow(rgb.subarray(3 * row * region.width, 3 * (row + 1) * region.width), across, rowSums);
      const cell = down.cell[top + row];
      const share = down.share[top + row];
      for (let i = 0; i < 3 * width; i++) sums[3 * cell * width + i] += share * rowSums[i];
      if (share >= 1 || cell + 1 >= height) continue;
      for (let i = 0; i < 3 * width; i++) sums[3 * (cell + 1) * width + i] += (1 - share) * rowSums[i];
    }
  }
  const cellArea = (region.width / width) * (region.height / height);
  if (!isWhole) for (let i = 0; i < sums.length; i++) sums[i] /= cellArea;
  return { width, height, rgb: sums };
}

/** Sums of one row of pixels over the cells across; `rowSums` has a cell to spare and is overwritten. */
function addRow(rgb: Float32Array, across: ReturnType<typeof sharesOf>, rowSums: Float64Array): void {
  rowSums.fill(0);
  for (let column = 0, i = 0; i < rgb.length; column++, i += 3) {
    const at = 3 * across.cell[column];
    const share = across.share[column];
    for (let channel = 0; channel < 3; channel++) {
      rowSums[at + channel] += share * rgb[i + channel];
      if (share < 1) rowSums[at + 3 + channel] += (1 - share) * rgb[i + channel];
    }
  }
}

/** sRGB codes of 65536 steps of light; off by at most 0.03 of a code before rounding, at the dark end. */
let codeTable: Uint8Array | null = null;

function codesOfLight(): Uint8Array {
  codeTable ??= Uint8Array.from({ length: 65536 }, (_, i) => Math.round(255 * srgbFromLinear(i / 65535)));
  return codeTable;
}

/**
 * Light as a screen shows it: sRGB codes, 4 bytes a pixel, opaque; light beyond 0..1 is cut off.
 *
 * @source IEC 61966-2-1:1999
 * @rule PX13
 */
export function screenCodes({ rgb }: MeanLight): Uint8ClampedArray {
  const codes = codesOfLight();
  const rgba = new Uint8ClampedArray((rgb.length / 3) * 4).fill(255);
  const codeOf = (light: number): number => codes[Math.round(65535 * Math.min(1, Math.max(0, light)))];
  for (let i = 0, at = 0; i < rgb.length; i += 3, at += 4) {
    rgba[at] = codeOf(rgb[i]);
    rgba[at + 1] = codeOf(rgb[i + 1]);
    rgba[at + 2] = codeOf(rgb[i + 2]);
  }
  return rgba;
}
