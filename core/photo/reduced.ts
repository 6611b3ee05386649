import type { DecodedPhoto, PixelRegion } from './decoded-photo';

/** A whole photo made smaller, and by how much. */
export interface ReducedPhoto {
  readonly photo: DecodedPhoto;
  /** Pixels of the photo along one side of a pixel of the reduced one. */
  readonly factor: number;
}

/** Mean of each factor x factor block of three interleaved channels. */
function shrunk<T extends Uint8Array | Uint16Array | Float32Array>(values: T, region: PixelRegion, factor: number): T {
  const width = Math.floor(region.width / factor);
  const height = Math.floor(region.height / factor);
  const small = values.slice(0, 3 * width * height) as T;
  const cells = factor * factor;
  for (let row = 0; row < height; row++) {
    for (let column = 0; column < width; column++) {
      const sums = [0, 0, 0];
      for (let down = 0; down < factor; down++) {
        let at = 3 * ((row * factor + down) * region.width + column * factor);
        for (let right = 0; right < factor; right++, at += 3) {
          for (let channel = 0; channel < 3; channel++) sums[channel] += values[at + channel];
        }
      }
      for (let channel = 0; channel < 3; channel++) small[3 * (row * width + column) + channel] = sums[channel] / cells;
    }
  }
  return small;
}

/**
 * A whole photo with at most so many pixels, for the search of its windows: blocks of code values are averaged. Not for
 * figures: means of codes are no means of light (edges move by less than half a pixel).
 *
 * @param decoded  the whole upright photo; not altered
 * @returns the same photo and factor 1 when it is small enough
 * @source common practice
 * @rule PX12
 */
export function reducedPhoto(decoded: DecodedPhoto, mostPixels: number): ReducedPhoto {
  const { region } = decoded;
  const factor = Math.ceil(Math.sqrt((region.width * region.height) / mostPixels));
  if (factor <= 1) return { photo: decoded, factor: 1 };
  const [width, height] = [Math.floor(region.width / factor), Math.floor(region.height / factor)];
  const photo: DecodedPhoto = {
    ...decoded,
    facts: { ...decoded.facts, widthPx: width, heightPx: height },
    region: { column: 0, row: 0, width, height },
    codes: decoded.codes && shrunk(decoded.codes, region, factor),
    linear: decoded.linear && shrunk(decoded.linear, region, factor),
  };
  return { photo, factor };
}

/**
 * The part of a decoded photo that lies in a region; the region is cut to what was decoded, at least one pixel.
 *
 * @rule PX12
 */
export function partOf(decoded: DecodedPhoto, asked: PixelRegion): DecodedPhoto {
  const whole = decoded.region;
  const clamp = (value: number, low: number, high: number): number => Math.min(Math.max(value, low), high);
  const column = clamp(asked.column, whole.column, whole.column + whole.width - 1);
  const row = clamp(asked.row, whole.row, whole.row + whole.height - 1);
  const width = clamp(asked.column + asked.width, column + 1, whole.column + whole.width) - column;
  const height = clamp(asked.row + asked.height, row + 1, whole.row + whole.height) - row;
  const cut = <T extends Uint8Array | Uint16Array | Float32Array>(values: T): T => {
    const part = values.slice(0, 3 * width * height) as T;
    for (let y = 0; y < height; y++) {
      const from = 3 * ((row - whole.row + y) * whole.width + column - whole.column);
      part.set(values.subarray(from, from + 3 * width), 3 * y * width);
    }
    return part;
  };
  return {
    ...decoded,
    region: { column, row, width, height },
    codes: decoded.codes && cut(decoded.codes),
    linear: decoded.linear && cut(decoded.linear),
  };
}
