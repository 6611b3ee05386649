import type { LinearPhoto } from '../base/linear-photo';
import type { LinearPart } from '../contract/bench';
import type { Corners } from '../base/points';

/** Mean of each by x by block of three interleaved channels; what is left over at the right and below is dropped. */
function blockMeans(rgb: Float32Array, widthPx: number, heightPx: number, by: number): Float32Array {
  const width = Math.floor(widthPx / by);
  const height = Math.floor(heightPx / by);
  const sums = new Float64Array(3 * width);
  const means = new Float32Array(3 * width * height);
  for (let row = 0; row < height; row++) {
    sums.fill(0);
    for (let line = row * by; line < (row + 1) * by; line++) {
      let at = 3 * line * widthPx;
      for (let cell = 0; cell < 3 * width; cell += 3) {
        for (let i = 0; i < by; i++, at += 3) {
          sums[cell] += rgb[at];
          sums[cell + 1] += rgb[at + 1];
          sums[cell + 2] += rgb[at + 2];
        }
      }
    }
    for (let i = 0; i < sums.length; i++) means[3 * width * row + i] = sums[i] / (by * by);
  }
  return means;
}

/** A whole part of a photo in linear light, reduced by area `by` times more. */
function reduced(part: LinearPart, by: number): LinearPart {
  if (by <= 1) return part;
  const width = Math.floor(part.width / by);
  const height = Math.floor(part.height / by);
  const reducedBy = part.reducedBy * by;
  return {
    region: { ...part.region, width: width * reducedBy, height: height * reducedBy },
    reducedBy,
    width,
    height,
    rgb: blockMeans(part.rgb, part.width, part.height, by),
  };
}

/**
 * Linear light of a decoded region with at most so many pixels, for the page: blocks are averaged in linear light.
 *
 * Up to one block at the right and below is dropped where the region is no whole multiple of it; `region` tells what is held.
 *
 * @param photo       not altered; without reduction its pixels are shared, not copied
 * @param mostPixels  1 or more
 * @source common practice (means of light are area-correct, means of codes are not)
 * @rule LV1
 */
export function linearPartOf(photo: LinearPhoto, mostPixels: number): LinearPart {
  const { region, rgb, reducedBy = 1 } = photo;
  const width = Math.floor(region.width / reducedBy);
  const height = Math.floor(region.height / reducedBy);
  const whole: LinearPart = { region, reducedBy, width, height, rgb };
  const by = Math.ceil(Math.sqrt((width * height) / Math.max(1, mostPixels)));
  return reduced(whole, Math.min(by, width, height));
}

/**
 * The part without the pixels that following a corner does not need: once a drag, before `readLive`. From one to two pixels a
 * cell of the live window are kept.
 *
 * @param corners     the window as it stands at the start of the drag
 * @param cellsPerMm  `LiveWindow.pxPerMm`
 * @source our own choice
 * @rule LV1
 */
export function partForWindow(
  part: LinearPart,
  corners: Corners,
  { widthMm, heightMm }: { readonly widthMm: number; readonly heightMm: number },
  cellsPerMm: number,
): LinearPart {
  const [topLeft, topRight, bottomRight, bottomLeft] = corners;
  const side = (a: typeof topLeft, b: typeof topLeft): number => Math.hypot(b.column - a.column, b.row - a.row);
  const across = Math.min(side(topLeft, topRight), side(bottomLeft, bottomRight)) / widthMm;
  const down = Math.min(side(topLeft, bottomLeft), side(topRight, bottomRight)) / heightMm;
  const by = Math.floor(Math.min(across, down) / part.reducedBy / cellsPerMm);
  return reduced(part, Math.max(1, Math.min(by, part.width, part.height)));
}

/**
 * Whether a part holds all of a window, up to what lies outside the photo and up to one of its own pixels (blocks that were
 * dropped at the photo's edge).
 *
 * @source our own choice
 * @rule LV1
 */
export function holdsWindow(
  { region, reducedBy }: Pick<LinearPart, 'region' | 'reducedBy'>,
  corners: Corners,
  photo: { readonly widthPx: number; readonly heightPx: number },
): boolean {
  const within = (value: number, limit: number): number => Math.min(Math.max(value, 0), limit);
  return corners.every((corner) => {
    const column = within(corner.column, photo.widthPx);
    const row = within(corner.row, photo.heightPx);
    return (
      column >= region.column - reducedBy &&
      row >= region.row - reducedBy &&
      column <= region.column + region.width + reducedBy &&
      row <= region.row + region.height + reducedBy
    );
  });
}
