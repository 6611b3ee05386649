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

/**
 * Four neighbouring sums of a padded line, from the cell `centre` on: weight 0 x the cell + weight k x (the cells k to
 * its left and right). A sum waits for its own last addition; four side by side need not wait for each other, and
 * share what they read. Each adds up in the order of k, as it would alone.
 */
function sumFour(kernel: Float64Array, padded: Float64Array, centre: number, sums: Float64Array, to: number): void {
  let left1 = padded[centre];
  let left2 = padded[centre + 1];
  let left3 = padded[centre + 2];
  let right0 = left2;
  let right1 = left3;
  let right2 = padded[centre + 3];
  let sum0 = kernel[0] * left1;
  let sum1 = kernel[0] * left2;
  let sum2 = kernel[0] * left3;
  let sum3 = kernel[0] * right2;
  for (let k = 1; k < kernel.length; k++) {
    const weight = kernel[k];
    const left0 = padded[centre - k];
    const right3 = padded[centre + 3 + k];
    sum0 += weight * (left0 + right0);
    sum1 += weight * (left1 + right1);
    sum2 += weight * (left2 + right2);
    sum3 += weight * (left3 + right3);
    // One cell further out is, to the left, what the neighbour before has now; to the right, what the next has.
    left3 = left2;
    left2 = left1;
    left1 = left0;
    right0 = right1;
    right1 = right2;
    right2 = right3;
  }
  sums[to] = sum0;
  sums[to + 1] = sum1;
  sums[to + 2] = sum2;
  sums[to + 3] = sum3;
}

/** Through a copy of the line with its mirror images at both ends: for kernels shorter than the line. */
function paddedBlur(kernel: Float64Array, length: number): LineBlur {
  const reach = kernel.length - 1;
  const places = Int32Array.from({ length: length + 2 * reach }, (_, i) => mirrored(i - reach, length));
  // The last four may reach beyond the line: what they read there is 0 and what they write is not used.
  const padded = new Float64Array(places.length + 3);
  const sums = new Float64Array(length + 3);
  return (source, target, from, step) => {
    for (let i = 0; i < places.length; i++) padded[i] = source[from + places[i] * step];
    for (let i = 0; i < length; i += 4) sumFour(kernel, padded, i + reach, sums, i);
    for (let i = 0; i < length; i++) target[from + i * step] = sums[i];
  };
}

/** The same sums with the mirror images folded into one weight a pair of cells: for kernels longer than the line. */
function foldedBlur(kernel: Float64Array, length: number): LineBlur {
  const reach = kernel.length - 1;
  const weights = new Float64Array((length + 3) * length);
  for (let i = 0; i < length; i++) {
    for (let k = -reach; k <= reach; k++) weights[i * length + mirrored(i + k, length)] += kernel[Math.abs(k)];
  }
  const line = new Float64Array(length);
  const sums = new Float64Array(length + 3);
  return (source, target, from, step) => {
    for (let i = 0; i < length; i++) line[i] = source[from + i * step];
    for (let i = 0; i < length; i += 4) dotFour(weights, line, i, sums);
    for (let i = 0; i < length; i++) target[from + i * step] = sums[i];
  };
}

/** Products of a line with the weights of four neighbouring cells from `first` on: side by side as in `sumFour`. */
function dotFour(weights: Float64Array, line: Float64Array, first: number, sums: Float64Array): void {
  const { length } = line;
  const start = first * length;
  let sum0 = 0;
  let sum1 = 0;
  let sum2 = 0;
  let sum3 = 0;
  for (let j = 0; j < length; j++) {
    const value = line[j];
    const at = start + j;
    sum0 += weights[at] * value;
    sum1 += weights[at + length] * value;
    sum2 += weights[at + 2 * length] * value;
    sum3 += weights[at + 3 * length] * value;
  }
  sums[first] = sum0;
  sums[first + 1] = sum1;
  sums[first + 2] = sum2;
  sums[first + 3] = sum3;
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
