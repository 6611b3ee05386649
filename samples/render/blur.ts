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

function blurLines(
  source: Float64Array,
  lines: number,
  lineStep: number,
  count: number,
  step: number,
  weights: Float64Array,
): Float64Array {
  const reach = (weights.length - 1) / 2;
  const result = new Float64Array(source.length);
  const padded = new Float64Array(count + 2 * reach);
  const from = Int32Array.from({ length: padded.length }, (_, i) => mirrored(i - reach, count) * step);
  for (let line = 0; line < lines; line++) {
    const start = line * lineStep;
    for (let i = 0; i < padded.length; i++) padded[i] = source[start + from[i]];
    for (let i = 0; i < count; i++) {
      let sum = 0;
      for (let k = 0; k < weights.length; k++) sum += weights[k] * padded[i + k];
      result[start + i * step] = sum;
    }
  }
  return result;
}

/** Gaussian blur of a row-by-row plane with mirrored borders; sigma in cells, 0 gives a copy. */
export function gaussianBlur(values: Float64Array, width: number, height: number, sigma: number): Float64Array {
  if (sigma <= 0) return values.slice();
  const weights = gaussianWeights(sigma);
  const alongRows = blurLines(values, height, width, width, 1, weights);
  return blurLines(alongRows, width, 1, height, width, weights);
}
