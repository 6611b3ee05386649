import { blurMasked } from '../base/gaussian';
import { createMask, createPlane, type Mask, type Plane } from '../base/plane';
import { closeGrey } from './morphology';

/** Mean over blocks of `factor` x `factor` cells, of the cells in the mask; the block is masked in when any is. */
function shrink(plane: Plane, mask: Mask, factor: number): { plane: Plane; mask: Mask } {
  const width = Math.ceil(plane.width / factor);
  const height = Math.ceil(plane.height / factor);
  const small = createPlane(width, height);
  const counts = new Uint16Array(width * height);
  const blockColumns = Int32Array.from({ length: plane.width }, (_, column) => Math.floor(column / factor));
  for (let row = 0; row < plane.height; row++) {
    const firstBlock = Math.floor(row / factor) * width;
    for (let column = 0; column < plane.width; column++) {
      const at = row * plane.width + column;
      if (!mask.values[at]) continue;
      const block = firstBlock + blockColumns[column];
      small.values[block] += plane.values[at];
      counts[block]++;
    }
  }
  const smallMask = createMask(width, height);
  for (let i = 0; i < counts.length; i++) {
    if (counts[i] === 0) continue;
    small.values[i] /= counts[i];
    smallMask.values[i] = 1;
  }
  return { plane: small, mask: smallMask };
}

/** For one axis: which coarse cells a fine cell lies between, and how far towards the second. */
function placesBetween(length: number, coarseLength: number, factor: number) {
  const first = new Int32Array(length);
  const second = new Int32Array(length);
  const share = new Float32Array(length);
  for (let i = 0; i < length; i++) {
    // Cell centres lie at +0.5 on both grids.
    const place = Math.min(Math.max((i + 0.5) / factor - 0.5, 0), coarseLength - 1);
    first[i] = Math.floor(place);
    second[i] = Math.min(first[i] + 1, coarseLength - 1);
    share[i] = place - first[i];
  }
  return { first, second, share };
}

/** Bilinear, from the coarse cells in the coarse mask only (those outside must be 0); NaN outside the fine mask. */
function enlarge(small: Plane, smallMask: Mask, mask: Mask, factor: number): Plane {
  const large = createPlane(mask.width, mask.height, NaN);
  const across = placesBetween(mask.width, small.width, factor);
  const down = placesBetween(mask.height, small.height, factor);
  for (let row = 0; row < mask.height; row++) {
    const top = down.first[row] * small.width;
    const bottom = down.second[row] * small.width;
    const y = down.share[row];
    for (let column = 0; column < mask.width; column++) {
      const at = row * mask.width + column;
      if (!mask.values[at]) continue;
      const x = across.share[column];
      const topLeft = top + across.first[column];
      const topRight = top + across.second[column];
      const bottomLeft = bottom + across.first[column];
      const bottomRight = bottom + across.second[column];
      const ofTopLeft = (1 - x) * (1 - y) * smallMask.values[topLeft];
      const ofTopRight = x * (1 - y) * smallMask.values[topRight];
      const ofBottomLeft = (1 - x) * y * smallMask.values[bottomLeft];
      const ofBottomRight = x * y * smallMask.values[bottomRight];
      large.values[at] =
        (ofTopLeft * small.values[topLeft] +
          ofTopRight * small.values[topRight] +
          ofBottomLeft * small.values[bottomLeft] +
          ofBottomRight * small.values[bottomRight]) /
        (ofTopLeft + ofTopRight + ofBottomLeft + ofBottomRight);
    }
  }
  return large;
}

/**
 * What the light would be without the print: marks narrower than `diameterMm` filled from their surroundings.
 *
 * closed = grey closing with a disk; smooth = Gauss(closed, diameter / 4) over the mask; background = the smaller of
 * the two. The smaller, because smoothing lifts the foot of a steep bright spot above the light that is there,
 * and the foot would be taken for print. Worked at about 5 cells a mm.
 *
 * @param logLight  ln of light, finite in the mask; not altered
 * @param mask      where the window's light is: outline less what is left out
 * @returns ln of light on the same grid; NaN outside the mask
 * @source grey closing as in Serra 1982 (from memory); sizes and the smaller of the two: our own choice, by trial on
 *         synthetic windows
 * @rule PM1
 */
export function printFreeBackground(logLight: Plane, mask: Mask, pxPerMm: number, diameterMm: number): Plane {
  const factor = Math.max(1, Math.floor(pxPerMm / 5));
  const small = shrink(logLight, mask, factor);
  const coarsePxPerMm = pxPerMm / factor;
  const radiusPx = Math.max(1, (diameterMm / 2) * coarsePxPerMm);
  const closed = closeGrey(small.plane, small.mask, radiusPx);
  const { blurred } = blurMasked(closed, small.mask, (diameterMm / 4) * coarsePxPerMm);
  for (let i = 0; i < blurred.values.length; i++) {
    if (!small.mask.values[i]) blurred.values[i] = 0;
    else if (closed.values[i] < blurred.values[i]) blurred.values[i] = closed.values[i];
  }
  return enlarge(blurred, small.mask, mask, factor);
}
