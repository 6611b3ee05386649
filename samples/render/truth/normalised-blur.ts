import { gaussianBlur } from '../blur';

/** Gaussian blur that uses only the cells with mask 1: blur(values x mask) / blur(mask). Sigma in cells. */
export function normalisedBlur(
  values: Float64Array,
  mask: Uint8Array,
  width: number,
  height: number,
  sigma: number,
): Float64Array {
  const masked = values.map((value, at) => (mask[at] ? value : 0));
  const blurred = gaussianBlur(masked, width, height, sigma);
  const weight = gaussianBlur(Float64Array.from(mask), width, height, sigma);
  return blurred.map((value, at) => value / Math.max(weight[at], 1e-6));
}
