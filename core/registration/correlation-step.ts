import type { Plane } from '../base/plane';
import { solveSymmetric } from '../base/solve-symmetric';
import { type Slopes, sumDerivatives } from './derivative-sums';
import { type Frame, freeNumbers, type Warp, type WarpModel } from './warp';

const dot = (a: Float64Array, b: Float64Array): number => a.reduce((sum, value, i) => sum + value * b[i], 0);

export interface CorrelationStep {
  /** Pearson's correlation of the first picture with the second as it is bent now; NaN when either is flat. */
  readonly correlation: number;
  /** The warp to try next; null when no step can be made. */
  readonly next: Warp | null;
}

/**
 * One step of the enhanced correlation coefficient method, forward additive: with r the first picture, w the bent second one,
 * G its derivatives by the free numbers (all less their means) and P the projection onto G,
 * lambda = (w'w - w'P w) / (r'w - r'P w), change = (G'G)^-1 G' (lambda r - w). Brightness and contrast cancel.
 *
 * @param first NaN = not compared
 * @source Evangelidis & Psarakis, IEEE Trans. PAMI 30, 2008, 1858-1865 (from memory)
 * @rule RG2
 */
export function correlationStep(
  first: Plane,
  second: Slopes,
  warp: Warp,
  frame: Frame,
  model: WarpModel,
): CorrelationStep {
  const free = freeNumbers[model];
  const { count, r, w, rr, ww, rw, g, gr, gw, gg } = sumDerivatives(first, second, warp, frame);
  // Less the means: sums become variances and covariances times the count.
  const firstFirst = rr - (r * r) / count;
  const secondSecond = ww - (w * w) / count;
  const firstSecond = rw - (r * w) / count;
  const withFirst = Float64Array.from(free, (i) => gr[i] - (g[i] * r) / count);
  const withSecond = Float64Array.from(free, (i) => gw[i] - (g[i] * w) / count);
  const lower = (i: number, j: number) => (i >= j ? gg[8 * i + j] : gg[8 * j + i]) - (g[i] * g[j]) / count;
  const withEachOther = Float64Array.from(free.flatMap((i) => free.map((j) => lower(i, j))));
  const stopped = { correlation: firstSecond / Math.sqrt(firstFirst * secondSecond), next: null };
  const inverseWithFirst = solveSymmetric(withEachOther, withFirst);
  const inverseWithSecond = solveSymmetric(withEachOther, withSecond);
  if (!inverseWithFirst || !inverseWithSecond) return stopped;
  const above = secondSecond - dot(withSecond, inverseWithSecond);
  const below = firstSecond - dot(withFirst, inverseWithSecond);
  // Pictures that do not fit at all: no step makes them more alike.
  if (!(below > 0)) return stopped;
  const next = [...warp];
  free.forEach((at, i) => (next[at] += (above / below) * inverseWithFirst[i] - inverseWithSecond[i]));
  return { ...stopped, next };
}
