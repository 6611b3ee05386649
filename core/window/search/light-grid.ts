import type { LinearPhoto } from '../../base/linear-photo';
import { createPlane, type Plane } from '../../base/plane';

/** A reduced copy of the photo's light: one cell is `pxPerCell` x `pxPerCell` photo pixels. */
export interface LightGrid {
  readonly light: Plane;
  readonly pxPerCell: number;
}

/** Weights of red, green and blue: luminance has 0.21, 0.72, 0.07, which would hide a blue-lit window. */
const searchWeights = [0.3, 0.5, 0.2] as const;

/**
 * The photo's light, reduced by whole pixels until its longer side has at most `longSideCells` cells.
 *
 * A cell is the mean of 0.3 red + 0.5 green + 0.2 blue: near luminance, but with weight enough that a window lit red or
 * blue stands out. Pixels right and below that do not fill a cell are left out.
 *
 * @param photo          must hold the whole photo; not altered
 * @param longSideCells  1 or more
 * @returns light 0 or more, 1 = full scale
 * @source our own choice
 * @rule WN12
 */
export function lightGrid(photo: LinearPhoto, longSideCells: number): LightGrid {
  const { region, rgb } = photo;
  const pxPerCell = Math.max(1, Math.ceil(Math.max(region.width, region.height) / longSideCells));
  const light = createPlane(
    Math.max(1, Math.floor(region.width / pxPerCell)),
    Math.max(1, Math.floor(region.height / pxPerCell)),
  );
  const share = 1 / (Math.min(pxPerCell, region.width) * Math.min(pxPerCell, region.height));
  const [redWeight, greenWeight, blueWeight] = searchWeights;
  const sums = new Float64Array(light.width);
  const perRow = Math.min(pxPerCell, region.width);
  for (let row = 0; row < light.height; row++) {
    sums.fill(0);
    const lastRow = Math.min((row + 1) * pxPerCell, region.height);
    for (let from = row * pxPerCell; from < lastRow; from++) {
      let at = 3 * from * region.width;
      for (let cell = 0; cell < sums.length; cell++) {
        let red = 0;
        let green = 0;
        let blue = 0;
        for (let i = 0; i < perRow; i++, at += 3) {
          red += rgb[at];
          green += rgb[at + 1];
          blue += rgb[at + 2];
        }
        sums[cell] += redWeight * red + greenWeight * green + blueWeight * blue;
      }
    }
    for (let column = 0; column < light.width; column++) {
      light.values[row * light.width + column] = Math.max(sums[column], 0) * share;
    }
  }
  return { light, pxPerCell };
}

/** Light at a place of the photo, pixels; the photo's rim goes on outside. */
export type LightAt = (column: number, row: number) => number;

/** Light between the centres of the grid's cells, at photo pixels. @source common practice (bilinear) @rule WN12 */
export function gridSampler({ light, pxPerCell }: LightGrid): LightAt {
  const { width, height, values } = light;
  const scale = 1 / pxPerCell;
  return (column, row) => {
    const x = Math.min(Math.max(column * scale - 0.5, 0), width - 1);
    const y = Math.min(Math.max(row * scale - 0.5, 0), height - 1);
    const left = Math.floor(x);
    const top = Math.floor(y);
    const right = left + 1 < width ? 1 : 0;
    const below = top + 1 < height ? width : 0;
    const at = top * width + left;
    const upper = values[at] + (x - left) * (values[at + right] - values[at]);
    const lower = values[at + below] + (x - left) * (values[at + below + right] - values[at + below]);
    return upper + (y - top) * (lower - upper);
  };
}

/** The same weighted light of the photo's own pixels, bilinear. @source common practice @rule WN12 */
export function photoSampler(photo: LinearPhoto): LightAt {
  const { region, rgb } = photo;
  const { width, height } = region;
  const [redWeight, greenWeight, blueWeight] = searchWeights;
  const lightOf = (at: number): number =>
    Math.max(redWeight * rgb[at] + greenWeight * rgb[at + 1] + blueWeight * rgb[at + 2], 0);
  return (column, row) => {
    const x = Math.min(Math.max(column - region.column - 0.5, 0), width - 1);
    const y = Math.min(Math.max(row - region.row - 0.5, 0), height - 1);
    const left = Math.floor(x);
    const top = Math.floor(y);
    const right = left + 1 < width ? 3 : 0;
    const below = top + 1 < height ? 3 * width : 0;
    const at = 3 * (top * width + left);
    const first = lightOf(at);
    const third = lightOf(at + below);
    const upper = first + (x - left) * (lightOf(at + right) - first);
    const lower = third + (x - left) * (lightOf(at + below + right) - third);
    return upper + (y - top) * (lower - upper);
  };
}
