/** A Gaussian blur along lines of one length, worked in a buffer of the caller's. */
export interface LineBlur {
  /** The line's first cell goes here in the buffer; what lies before and behind is ours. */
  readonly first: number;
  readonly bufferLength: number;
  /** How many blurred values a line gives; there must be room for three more. */
  readonly outputs: number;
  /** Blurs the line that starts at `buffer[base + first]` into `sums`, from `to` on. */
  run(buffer: Float64Array, base: number, sums: Float64Array, to: number): void;
}

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
export function mirrored(index: number, length: number): number {
  const period = 2 * length;
  const inPeriod = ((index % period) + period) % period;
  return inPeriod < length ? inPeriod : period - 1 - inPeriod;
}

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

/** One such sum by itself, in two halves so that it waits less for itself. */
function sumOne(kernel: Float64Array, padded: Float64Array, centre: number): number {
  let odd = 0;
  let even = kernel[0] * padded[centre];
  let k = 1;
  for (; k + 1 < kernel.length; k += 2) {
    odd += kernel[k] * (padded[centre - k] + padded[centre + k]);
    even += kernel[k + 1] * (padded[centre - k - 1] + padded[centre + k + 1]);
  }
  if (k < kernel.length) odd += kernel[k] * (padded[centre - k] + padded[centre + k]);
  return even + odd;
}

/** With mirror images at both ends of the line: for kernels shorter than it. */
function paddedBlur(kernel: Float64Array, length: number, places: Int32Array, isEveryCell: boolean): LineBlur {
  const reach = kernel.length - 1;
  return {
    first: reach,
    // The last four may reach beyond the line: what they read there does not matter and what they write is not used.
    bufferLength: length + 2 * reach + 3,
    outputs: places.length,
    run(buffer, base, sums, to) {
      const start = base + reach;
      const end = start + length;
      for (let i = 0; i < reach; i++) {
        buffer[start - 1 - i] = buffer[start + i];
        buffer[end + i] = buffer[end - 1 - i];
      }
      if (isEveryCell) for (let i = 0; i < length; i += 4) sumFour(kernel, buffer, start + i, sums, to + i);
      else for (let i = 0; i < places.length; i++) sums[to + i] = sumOne(kernel, buffer, start + places[i]);
    },
  };
}

/** Products of a line with the weights of four neighbouring cells from `first` on: side by side as in `sumFour`. */
function dotFour(
  weights: Float64Array,
  line: Float64Array,
  base: number,
  length: number,
  first: number,
  sums: Float64Array,
  to: number,
): void {
  const start = first * length;
  let sum0 = 0;
  let sum1 = 0;
  let sum2 = 0;
  let sum3 = 0;
  for (let j = 0; j < length; j++) {
    const value = line[base + j];
    const at = start + j;
    sum0 += weights[at] * value;
    sum1 += weights[at + length] * value;
    sum2 += weights[at + 2 * length] * value;
    sum3 += weights[at + 3 * length] * value;
  }
  sums[to + first] = sum0;
  sums[to + first + 1] = sum1;
  sums[to + first + 2] = sum2;
  sums[to + first + 3] = sum3;
}

/** The same sums with the mirror images folded into one weight a pair of cells: for kernels longer than the line. */
function foldedBlur(kernel: Float64Array, length: number, places: Int32Array): LineBlur {
  const reach = kernel.length - 1;
  const weights = new Float64Array((places.length + 3) * length);
  for (let i = 0; i < places.length; i++) {
    for (let k = -reach; k <= reach; k++) {
      weights[i * length + mirrored(places[i] + k, length)] += kernel[Math.abs(k)];
    }
  }
  return {
    first: 0,
    bufferLength: length,
    outputs: places.length,
    run(buffer, base, sums, to) {
      for (let i = 0; i < places.length; i += 4) dotFour(weights, buffer, base, length, i, sums, to);
    },
  };
}

/**
 * The Gaussian blur of lines of one length, mirror padding about their ends, kernel cut at 4 sigma.
 *
 * @param sigmaPx  above 0
 * @param places   the cells at which the blur is wanted, in rising order or not; left out: every cell
 * @source common practice
 */
export function lineBlur(length: number, sigmaPx: number, places?: Int32Array): LineBlur {
  const kernel = halfKernel(sigmaPx);
  const wanted = places ?? Int32Array.from({ length }, (_, i) => i);
  return kernel.length > length
    ? foldedBlur(kernel, length, wanted)
    : paddedBlur(kernel, length, wanted, places === undefined);
}
