/** Weights of a Gaussian cut at four sigmas, sum 1. */
function gaussianWeights(sigma: number): Float64Array {
  const reach = Math.max(1, Math.ceil(4 * sigma));
  const weights = Float64Array.from({ length: 2 * reach + 1 }, (_, i) => Math.exp(-0.5 * ((i - reach) / sigma) ** 2));
  const sum = weights.reduce((total, weight) => total + weight, 0);
  return weights.map((weight) => weight / sum);
}

/** Index mirrored at the borders, the border sample itself repeated: ... 1 0 | 0 1 2 ... n-1 | n-1 n-2 ... */
function mirrored(index: number, count: number): number {
  const period = 2 * count;
  const inPeriod = ((index % period) + period) % period;
  return inPeriod < count ? inPeriod : period - 1 - inPeriod;
}

function alongRows(source: Float64Array, width: number, height: number, weights: Float64Array): Float64Array {
  const reach = (weights.length - 1) / 2;
  const result = new Float64Array(source.length);
  const padded = new Float64Array(width + 2 * reach);
  const from = Int32Array.from({ length: padded.length }, (_, i) => mirrored(i - reach, width));
  for (let start = 0; start < height * width; start += width) {
    for (let i = 0; i < padded.length; i++) padded[i] = source[start + from[i]];
    for (let i = 0; i < width; i++) {
      let sum = 0;
      for (let k = 0; k < weights.length; k++) sum += weights[k] * padded[i + k];
      result[start + i] = sum;
    }
  }
  return result;
}

/** Whole rows are added up, as walking down the columns of a large picture is slow. */
function downColumns(source: Float64Array, width: number, height: number, weights: Float64Array): Float64Array {
  const reach = (weights.length - 1) / 2;
  const result = new Float64Array(source.length);
  for (let row = 0; row < height; row++) {
    const start = row * width;
    for (let k = 0; k < weights.length; k++) {
      const weight = weights[k];
      const from = mirrored(row + k - reach, height) * width;
      for (let i = 0; i < width; i++) result[start + i] += weight * source[from + i];
    }
  }
  return result;
}

/** Gaussian blur of a row-by-row plane with mirrored borders; sigma in cells, 0 gives a copy. */
export function gaussianBlur(values: Float64Array, width: number, height: number, sigma: number): Float64Array {
  if (sigma <= 0) return values.slice();
  const weights = gaussianWeights(sigma);
  return downColumns(alongRows(values, width, height, weights), width, height, weights);
}
