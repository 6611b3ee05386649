import type { PixelRegion } from '../../photo/decoded-photo';

/** Stored samples, interleaved, as the decoder gives them. */
export interface StoredPixels {
  readonly width: number;
  readonly height: number;
  readonly channels: number;
  readonly samples: Uint8Array | Uint16Array;
}

/** Upright size of a stored size. */
export function uprightSize(width: number, height: number, orientation: number): { width: number; height: number } {
  return orientation >= 5 ? { width: height, height: width } : { width, height };
}

/**
 * The part of a region that lies on the photo, whole pixels; the pixel nearest to it when nothing of it does.
 *
 * @param region  null: the whole photo
 */
export function clampRegion(region: PixelRegion | null, width: number, height: number): PixelRegion {
  if (!region) return { column: 0, row: 0, width, height };
  const within = (value: number, most: number): number => Math.min(Math.max(value, 0), most);
  const column = within(Math.floor(region.column), width - 1);
  const row = within(Math.floor(region.row), height - 1);
  const right = within(Math.ceil(region.column + region.width), width);
  const bottom = within(Math.ceil(region.row + region.height), height);
  return { column, row, width: Math.max(1, right - column), height: Math.max(1, bottom - row) };
}

/** Place in the stored pixels of upright (0, 0), and the steps to the next upright column and row; in pixels. */
function stepsOf(width: number, height: number, orientation: number): { origin: number; column: number; row: number } {
  const right = width - 1;
  const bottom = (height - 1) * width;
  switch (orientation) {
    case 2:
      return { origin: right, column: -1, row: width };
    case 3:
      return { origin: bottom + right, column: -1, row: -width };
    case 4:
      return { origin: bottom, column: 1, row: -width };
    case 5:
      return { origin: 0, column: width, row: 1 };
    case 6:
      return { origin: bottom, column: -width, row: 1 };
    case 7:
      return { origin: bottom + right, column: -width, row: -1 };
    case 8:
      return { origin: right, column: width, row: -1 };
    default:
      return { origin: 0, column: 1, row: width };
  }
}

/** The frequent case, by whole rows: nothing to turn, every channel stays. */
function cutRows({ samples, width, channels }: StoredPixels, region: PixelRegion): Uint8Array | Uint16Array {
  const rowLength = region.width * channels;
  const start = (region.row * width + region.column) * channels;
  if (region.width === width) return samples.slice(start, start + rowLength * region.height);
  const length = rowLength * region.height;
  const codes = samples instanceof Uint8Array ? new Uint8Array(length) : new Uint16Array(length);
  for (let row = 0; row < region.height; row++) {
    const from = start + row * width * channels;
    codes.set(samples.subarray(from, from + rowLength), row * rowLength);
  }
  return codes;
}

/**
 * Turns stored pixels upright, cuts out a region and keeps the wanted channels: every sample is moved as it is.
 *
 * @param region       within the upright photo
 * @param orientation  EXIF, 1..8
 * @param kept         which stored channel goes to each channel of the result: [0, 0, 0] repeats grey
 * @source CIPA DC-008-2019 (Exif 2.32), tag 274
 * @rule PX8
 */
export function cutUpright(
  pixels: StoredPixels,
  region: PixelRegion,
  orientation: number,
  kept: readonly number[],
): Uint8Array | Uint16Array {
  const { samples, channels } = pixels;
  if (orientation === 1 && channels === kept.length && kept.every((from, to) => from === to))
    return cutRows(pixels, region);
  const steps = stepsOf(pixels.width, pixels.height, orientation);
  const length = region.width * region.height * kept.length;
  const codes = samples instanceof Uint8Array ? new Uint8Array(length) : new Uint16Array(length);
  let to = 0;
  for (let row = region.row; row < region.row + region.height; row++) {
    let from = (steps.origin + row * steps.row + region.column * steps.column) * channels;
    if (kept.length === 3) {
      const [first, second, third] = kept;
      for (let column = 0; column < region.width; column++, from += steps.column * channels, to += 3) {
        codes[to] = samples[from + first];
        codes[to + 1] = samples[from + second];
        codes[to + 2] = samples[from + third];
      }
      continue;
    }
    for (let column = 0; column < region.width; column++, from += steps.column * channels) {
      for (const channel of kept) codes[to++] = samples[from + channel];
    }
  }
  return codes;
}
