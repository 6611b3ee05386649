/** A complex picture, row by row; the Fourier transform works on it in place. */
export interface ComplexPlane {
  readonly width: number;
  readonly height: number;
  readonly real: Float64Array;
  readonly imaginary: Float64Array;
}

/** The smallest power of two that is not below `length`. @source definition */
export function powerOfTwoFrom(length: number): number {
  let power = 1;
  while (power < length) power *= 2;
  return power;
}

/**
 * cos and sin of 2 pi k / n for k < n/2, without Math.cos and Math.sin, whose last digits differ between JavaScript
 * engines: half-angle formulas give the powers of two, sums of angles the rest (at most log2 n products each).
 */
function turnsOf(n: number): { cos: Float64Array; sin: Float64Array } {
  const cos = new Float64Array(Math.max(1, n / 2)).fill(1);
  const sin = new Float64Array(Math.max(1, n / 2));
  // An angle of pi, halved until it is that of k = 1.
  let stepCos = -1;
  let stepSin = 0;
  for (let k = n / 4; k >= 1; k /= 2) {
    const halfCos = Math.sqrt((1 + stepCos) / 2);
    const halfSin = Math.sqrt((1 - stepCos) / 2);
    // Below a quarter turn 1 - cos loses digits; sin = sin of the double / 2 cos does not.
    stepSin = stepCos < 0 ? halfSin : stepSin / (2 * halfCos);
    stepCos = halfCos;
    cos[k] = stepCos;
    sin[k] = stepSin;
  }
  for (let high = 2; high < n / 2; high *= 2) {
    for (let low = 1; low < high; low++) {
      cos[high + low] = cos[high] * cos[low] - sin[high] * sin[low];
      sin[high + low] = sin[high] * cos[low] + cos[high] * sin[low];
    }
  }
  return { cos, sin };
}

/** A transform of lines of n values, n a power of two; the work arrays are made once. */
function lineTransform(n: number): (real: Float64Array, imaginary: Float64Array) => void {
  const { cos, sin } = turnsOf(n);
  const mirrored = new Uint32Array(n);
  for (let i = 1; i < n; i++) mirrored[i] = (mirrored[i >> 1] >> 1) | (i & 1 ? n / 2 : 0);
  return (real, imaginary) => {
    for (let i = 0; i < n; i++) {
      const j = mirrored[i];
      if (j <= i) continue;
      [real[i], real[j]] = [real[j], real[i]];
      [imaginary[i], imaginary[j]] = [imaginary[j], imaginary[i]];
    }
    for (let half = 1; half < n; half *= 2) {
      const stride = n / (2 * half);
      for (let start = 0; start < n; start += 2 * half) {
        for (let k = 0; k < half; k++) {
          const a = start + k;
          const b = a + half;
          const turnedReal = real[b] * cos[k * stride] + imaginary[b] * sin[k * stride];
          const turnedImaginary = imaginary[b] * cos[k * stride] - real[b] * sin[k * stride];
          real[b] = real[a] - turnedReal;
          imaginary[b] = imaginary[a] - turnedImaginary;
          real[a] += turnedReal;
          imaginary[a] += turnedImaginary;
        }
      }
    }
  };
}

/**
 * Discrete Fourier transform of a picture, in place, not scaled: F(k) = sum f(x) exp(-2 pi i k x / n) along rows, then columns.
 * The same to the last digit in every JavaScript engine.
 *
 * @param plane width and height are powers of two
 * @source Cooley & Tukey, Math. Comp. 19, 1965, 297-301 (from memory)
 * @rule RG1
 */
export function transformInPlace(plane: ComplexPlane): void {
  const { width, height, real, imaginary } = plane;
  if (powerOfTwoFrom(width) !== width || powerOfTwoFrom(height) !== height) {
    throw new RangeError(`${width} x ${height} are not powers of two`);
  }
  const transformRow = lineTransform(width);
  for (let row = 0; row < height; row++) {
    const [from, to] = [row * width, (row + 1) * width];
    transformRow(real.subarray(from, to), imaginary.subarray(from, to));
  }
  const transformColumn = lineTransform(height);
  const columnReal = new Float64Array(height);
  const columnImaginary = new Float64Array(height);
  for (let column = 0; column < width; column++) {
    for (let row = 0; row < height; row++) {
      columnReal[row] = real[row * width + column];
      columnImaginary[row] = imaginary[row * width + column];
    }
    transformColumn(columnReal, columnImaginary);
    for (let row = 0; row < height; row++) {
      real[row * width + column] = columnReal[row];
      imaginary[row * width + column] = columnImaginary[row];
    }
  }
}
