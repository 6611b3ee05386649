import { lineBlur, mirrored, type LineBlur } from './line-blur';
import { assertSameShape, type Mask, type Plane } from './plane';

/** A blur so much wider than a cell is worked out at every `sparseStep(sigma)`th cell only. */
const sparseFromPx = 10;

/** Every how many cells: five nodes to a standard deviation. */
function sparseStep(sigmaPx: number): number {
  return sigmaPx < sparseFromPx ? 1 : Math.floor(sigmaPx / 5);
}

/** The nodes of a line: one before its first cell, then every `step` cells to two behind its last, mirrored into it. */
function nodesOf(length: number, step: number): Int32Array {
  const count = Math.floor((length - 1) / step) + 4;
  return Int32Array.from({ length: count }, (_, i) => mirrored((i - 1) * step, length));
}

function blurRows(values: Float32Array, height: number, width: number, blur: LineBlur): Float32Array {
  const buffer = new Float64Array(blur.bufferLength);
  const sums = new Float64Array(blur.outputs + 3);
  const blurred = new Float32Array(height * blur.outputs);
  for (let row = 0; row < height; row++) {
    buffer.set(values.subarray(row * width, (row + 1) * width), blur.first);
    blur.run(buffer, 0, sums, 0);
    blurred.set(sums.subarray(0, blur.outputs), row * blur.outputs);
  }
  return blurred;
}

/** So many columns are taken at a time: what the processor fetches at once when it reads a row. */
const columnsAtOnce = 16;

function blurColumns(values: Float32Array, height: number, width: number, blur: LineBlur): Float32Array {
  const { first, bufferLength, outputs } = blur;
  const buffer = new Float64Array(columnsAtOnce * bufferLength);
  const sums = new Float64Array(columnsAtOnce * outputs + 3);
  const blurred = new Float32Array(outputs * width);
  for (let left = 0; left < width; left += columnsAtOnce) {
    const columns = Math.min(columnsAtOnce, width - left);
    for (let row = 0; row < height; row++) {
      const from = row * width + left;
      for (let i = 0, to = first + row; i < columns; i++, to += bufferLength) buffer[to] = values[from + i];
    }
    for (let i = 0; i < columns; i++) blur.run(buffer, i * bufferLength, sums, i * outputs);
    for (let row = 0; row < outputs; row++) {
      const to = row * width + left;
      for (let i = 0, from = row; i < columns; i++, from += outputs) blurred[to + i] = sums[from];
    }
  }
  return blurred;
}

/** Weights of four nodes for each cell between the second and the third: the cubic through them. */
function cubicWeights(step: number): Float64Array {
  const weights = new Float64Array(4 * step);
  for (let i = 0; i < step; i++) {
    const u = i / step;
    weights[4 * i] = (-u * (u - 1) * (u - 2)) / 6;
    weights[4 * i + 1] = ((u + 1) * (u - 1) * (u - 2)) / 2;
    weights[4 * i + 2] = (-(u + 1) * u * (u - 2)) / 2;
    weights[4 * i + 3] = ((u + 1) * u * (u - 1)) / 6;
  }
  return weights;
}

/** Every cell from the nodes: down the columns of nodes first, then along the rows. */
function betweenNodes(nodes: Float32Array, nodesAcross: number, step: number, width: number, height: number): Plane {
  const weights = cubicWeights(step);
  const line = new Float64Array(nodesAcross);
  const values = new Float32Array(width * height);
  for (let row = 0; row < height; row++) {
    const at = 4 * (row % step);
    const top = Math.floor(row / step) * nodesAcross;
    for (let i = 0; i < nodesAcross; i++) {
      line[i] =
        weights[at] * nodes[top + i] +
        weights[at + 1] * nodes[top + nodesAcross + i] +
        weights[at + 2] * nodes[top + 2 * nodesAcross + i] +
        weights[at + 3] * nodes[top + 3 * nodesAcross + i];
    }
    for (let column = 0, node = 0, w = 0; column < width; column++) {
      values[row * width + column] =
        weights[w] * line[node] +
        weights[w + 1] * line[node + 1] +
        weights[w + 2] * line[node + 2] +
        weights[w + 3] * line[node + 3];
      w += 4;
      if (w === weights.length) {
        w = 0;
        node += 1;
      }
    }
  }
  return { width, height, values };
}

/**
 * Gaussian blur, mirror padding about the outer edges, kernel cut at 4 sigma.
 *
 * From sigma = 10 cells on the sums are worked out at every floor(sigma / 5)th cell, and a cubic through four of them gives
 * the cells between: within 2e-4 of the plane's range, as what is blurred so far has no finer shape.
 *
 * @param plane    finite values; not altered
 * @param sigmaPx  standard deviation in cells; 0 or less returns a copy
 * @source common practice; cubic of Lagrange, whose error is 3/128 h^4 of the fourth derivative
 */
export function blurGaussian(plane: Plane, sigmaPx: number): Plane {
  const { width, height } = plane;
  if (!(sigmaPx > 0)) return { width, height, values: plane.values.slice() };
  const step = sparseStep(sigmaPx);
  const blurFor = (length: number): LineBlur =>
    step === 1 ? lineBlur(length, sigmaPx) : lineBlur(length, sigmaPx, nodesOf(length, step));
  const ofRows = blurFor(width);
  const across = blurRows(plane.values, height, width, ofRows);
  const values = blurColumns(across, height, ofRows.outputs, blurFor(height));
  return step === 1 ? { width, height, values } : betweenNodes(values, ofRows.outputs, step, width, height);
}

export interface WeightedBlur {
  /** Blur of value x weight over blur of weight; 0 where no weight reaches. */
  readonly blurred: Plane;
  /** Blur of the weight, 0..1. */
  readonly weight: Plane;
}

/**
 * The blur of a mask: what `blurMasked` divides by. Worked out once for several planes with one mask.
 *
 * @source as blurMasked
 */
export function blurredWeight({ width, height, values }: Mask, sigmaPx: number): Plane {
  const ones = { width, height, values: Float32Array.from(values) };
  // Mirrored at the edges, a mask without a gap blurs to itself.
  return values.includes(0) ? blurGaussian(ones, sigmaPx) : ones;
}

/**
 * Normalised convolution: a Gaussian blur that uses only the cells of the mask, so that what is masked
 * cannot leak into its surroundings.
 *
 * @param plane   values outside the mask may be anything, NaN too; not altered
 * @param weight  `blurredWeight` of the same mask and sigma; left out: worked out here
 * @source Knutsson & Westin, Normalized and differential convolution, 1993 (from memory)
 */
export function blurMasked(
  plane: Plane,
  mask: Mask,
  sigmaPx: number,
  weight = blurredWeight(mask, sigmaPx),
): WeightedBlur {
  assertSameShape(plane, mask);
  const { width, height } = plane;
  const weighted = new Float32Array(width * height);
  for (let i = 0; i < weighted.length; i++) if (mask.values[i]) weighted[i] = plane.values[i];
  const blurred = blurGaussian({ width, height, values: weighted }, sigmaPx);
  for (let i = 0; i < weighted.length; i++) blurred.values[i] /= Math.max(weight.values[i], 1e-6);
  return { blurred, weight };
}
