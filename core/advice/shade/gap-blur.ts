import { mirrored } from '../../base/line-blur';
import { createPlane, type Plane } from '../../base/plane';
import { powerOfTwoFrom, transformInPlace, type ComplexPlane } from '../../registration/fourier';

/**
 * Share of a point's light that falls within a radius on a scale at a gap: r^2 / (r^2 + g^2).
 *
 * @source Lambert's exit and the cos^4 law, integrated: K(r) = g^2 / (pi (r^2 + g^2)^2)
 * @rule AV3
 */
export function shareWithin(radiusMm: number, gapMm: number): number {
  return (radiusMm * radiusMm) / (radiusMm * radiusMm + gapMm * gapMm);
}

/** Share of the light in the quarter 0..x, 0..y from the foot of the point; odd in x and in y. */
function shareOfRectangle(x: number, y: number, gap: number): number {
  const [a, b] = [Math.sqrt(x * x + gap * gap), Math.sqrt(y * y + gap * gap)];
  return ((x / a) * Math.atan2(y, a) + (y / b) * Math.atan2(x, b)) / (2 * Math.PI);
}

/** Eight gaps hold 98.5 % of the light; the rest is as good as even. */
const reachInGaps = 8;

/** The kernel, whole cells, centred on cell 0, 0 of a periodic plane; sums to 1. */
function kernelOf(width: number, height: number, reach: number, gapPx: number): ComplexPlane {
  const real = new Float64Array(width * height);
  let sum = 0;
  for (let row = -reach; row <= reach; row++) {
    for (let column = -reach; column <= reach; column++) {
      const share = (x: number, y: number): number => shareOfRectangle(column + x, row + y, gapPx);
      const cell = share(0.5, 0.5) - share(-0.5, 0.5) - share(0.5, -0.5) + share(-0.5, -0.5);
      real[((row + height) % height) * width + ((column + width) % width)] = cell;
      sum += cell;
    }
  }
  for (let i = 0; i < real.length; i++) real[i] /= sum;
  return { width, height, real, imaginary: new Float64Array(width * height) };
}

/** Spreads the light of one plane as the gap between shade and scale does. */
export type GapBlur = (plane: Plane) => Plane;

/**
 * The blur of planes of one size by a gap between shade and scale, mirrored about the window's edges.
 *
 * @param gapMm 0 or more; under a twentieth of a cell nothing is blurred
 * @source shareWithin; a cell's share by the view factor of a rectangle from a point in a parallel plane (from memory)
 * @rule AV3
 */
export function gapBlur(width: number, height: number, pxPerMm: number, gapMm: number): GapBlur {
  const gapPx = gapMm * pxPerMm;
  if (gapPx < 0.05) return (plane) => plane;
  const reach = Math.max(2, Math.ceil(reachInGaps * gapPx));
  const [wide, high] = [powerOfTwoFrom(width + 2 * reach), powerOfTwoFrom(height + 2 * reach)];
  const kernel = kernelOf(wide, high, reach, gapPx);
  transformInPlace(kernel);
  const placeOf = (i: number, length: number, period: number): number =>
    mirrored(i < length + reach ? i : i - period, length);
  const columns = Int32Array.from({ length: wide }, (_, i) => placeOf(i, width, wide));
  const rows = Int32Array.from({ length: high }, (_, i) => placeOf(i, height, high));
  return ({ values }) => {
    const real = new Float64Array(wide * high);
    for (let y = 0; y < high; y++)
      for (let x = 0; x < wide; x++) real[y * wide + x] = values[rows[y] * width + columns[x]];
    const picture = { width: wide, height: high, real, imaginary: new Float64Array(wide * high) };
    transformInPlace(picture);
    // The kernel is even, so its transform is real; a forward transform of the product, read backwards, is the inverse.
    for (let i = 0; i < real.length; i++) {
      real[i] *= kernel.real[i];
      picture.imaginary[i] *= kernel.real[i];
    }
    transformInPlace(picture);
    const blurred = createPlane(width, height);
    for (let i = 0; i < blurred.values.length; i++) {
      const [x, y] = [i % width, Math.floor(i / width)];
      blurred.values[i] = real[((high - y) % high) * wide + ((wide - x) % wide)] / (wide * high);
    }
    return blurred;
  };
}
