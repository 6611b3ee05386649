import { assertSameShape, type Mask, type Plane } from './plane';

/** Half of a Gaussian kernel, centre first, cut at 4 sigma, summing (both sides) to 1. */
function halfKernel(sigmaPx: number): Float64Array {
  const reach = Math.max(1, Math.floor(4 * sigmaPx + 0.5));
  const kernel = new Float64Array(reach + 1);
  let sum = 0;
  for (let i = 0; i <= reach; i++) {
    kernel[i] = Math.exp((-0.5 * i * i) / (sigmaPx * sigmaPx));
    sum += i === 0 ? kernel[i] : 2 * kernel[i];
  }
  return kernel.map((weight) => weight / sum);
}

/** Index reflected about the outer edges (d c b a | a b c d | d c b a), for any distance outside. */
function mirrored(index: number, length: number): number {
  const period = 2 * length;
  const inPeriod = ((index % period) + period) % period;
  return inPeriod < length ? inPeriod : period - 1 - inPeriod;
}

/** A blur along lines of one length: source, target, first cell and step from cell to cell. */
type LineBlur = (source: Float32Array, target: Float32Array, from: number, step: number) => void;

/** Through a copy of the line with its mirror images at both ends: for kernels shorter than the line. */
function paddedBlur(kernel: Float64Array, length: number): LineBlur {
  const reach = kernel.length - 1;
  const padded = new Float64Array(length + 2 * reach);
  return (source, target, from, step) => {
    for (let i = -reach; i < length + reach; i++) {
      const at = i >= 0 && i < length ? i : mirrored(i, length);
      padded[i + reach] = source[from + at * step];
    }
    for (let i = 0; i < length; i++) {
      const centre = i + reach;
      let sum = kernel[0] * padded[centre];
      for (let k = 1; k <= reach; k++) sum += kernel[k] * (padded[centre - k] + padded[centre + k]);
      target[from + i * step] = sum;
    }
  };
}

/** The same sums with the mirror images folded into one weight a pair of cells: for kernels longer than the line. */
function foldedBlur(kernel: Float64Array, length: number): LineBlur {
  const reach = kernel.length - 1;
  const weights = new Float64Array(length * length);
  for (let i = 0; i < length; i++) {
    for (let k = -reach; k <= reach; k++) weights[i * length + mirrored(i + k, length)] += kernel[Math.abs(k)];
  }
  const line = new Float64Array(length);
  return (source, target, from, step) => {
    for (let i = 0; i < length; i++) line[i] = source[from + i * step];
    for (let i = 0; i < length; i++) {
      let sum = 0;
      for (let j = 0; j < length; j++) sum += weights[i * length + j] * line[j];
      target[from + i * step] = sum;
    }
  };
}

/**
 * Gaussian blur, mirror padding about the outer edges, kernel cut at 4 sigma.
 *
 * @param plane    finite values; not altered
 * @param sigmaPx  standard deviation in cells; 0 or less returns a copy
 * @source common practice
 */
export function blurGaussian(plane: Plane, sigmaPx: number): Plane {
  const { width, height } = plane;
  if (!(sigmaPx > 0)) return { width, height, values: plane.values.slice() };
  const kernel = halfKernel(sigmaPx);
  const blurFor = (length: number): LineBlur => (kernel.length > length ? foldedBlur : paddedBlur)(kernel, length);
  const across = new Float32Array(width * height);
  const blurRow = blurFor(width);
  for (let row = 0; row < height; row++) blurRow(plane.values, across, row * width, 1);
  const values = new Float32Array(width * height);
  const blurColumn = blurFor(height);
  for (let column = 0; column < width; column++) blurColumn(across, values, column, width);
  return { width, height, values };
}

export interface WeightedBlur {
  /** Blur of value x weight over blur of weight; 0 where no weight reaches. */
  readonly blurred: Plane;
  /** Blur of the weight, 0..1. */
  readonly weight: Plane;
}

/**
 * Normalised convolution: a Gaussian blur that uses only the cells of the mask, so that what is masked
 * cannot leak into its surroundings.
 *
 * @param plane  values outside the mask may be anything, NaN too; not altered
 * @source Knutsson & Westin, Normalized and differential convolution, 1993 (from memory)
 */
export function blurMasked(plane: Plane, mask: Mask, sigmaPx: number): WeightedBlur {
  assertSameShape(plane, mask);
  const { width, height } = plane;
  const weighted = new Float32Array(width * height);
  const ones = new Float32Array(width * height);
  for (let i = 0; i < weighted.length; i++) {
    if (!mask.values[i]) continue;
    weighted[i] = plane.values[i];
    ones[i] = 1;
  }
  const blurred = blurGaussian({ width, height, values: weighted }, sigmaPx);
  // Mirrored at the edges, a mask without a gap blurs to itself.
  const weightBefore = { width, height, values: ones };
  const weight = mask.values.includes(0) ? blurGaussian(weightBefore, sigmaPx) : weightBefore;
  for (let i = 0; i < weighted.length; i++) blurred.values[i] /= Math.max(weight.values[i], 1e-6);
  return { blurred, weight };
}
