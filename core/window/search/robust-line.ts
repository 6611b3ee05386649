/** An observation of a side: share of the way along it, offset from it in px, and how much it counts. */
export interface SidePoint {
  readonly along: number;
  readonly offsetPx: number;
}

export interface SideLine {
  /** Offset at the start and at the end of the side, px. */
  readonly startPx: number;
  readonly endPx: number;
}

const rounds = 8;
/** Beyond this many robust deviations an edge belongs to print or to something else (Tukey's biweight). */
const cutDeviations = 4.685;

/** Weighted least squares of offset over along; null without a slope to tell. */
function weightedLine(points: readonly SidePoint[], weights: Float64Array): SideLine | null {
  let [sum, sumA, sumAa, sumO, sumAo] = [0, 0, 0, 0, 0];
  points.forEach(({ along, offsetPx }, i) => {
    const weight = weights[i];
    sum += weight;
    sumA += weight * along;
    sumAa += weight * along * along;
    sumO += weight * offsetPx;
    sumAo += weight * along * offsetPx;
  });
  const spread = sum * sumAa - sumA * sumA;
  // 0.02: all weight within a seventh of the side.
  if (!(spread > 0.02 * sum * sum)) return null;
  const slope = (sum * sumAo - sumA * sumO) / spread;
  const startPx = (sumO - slope * sumA) / sum;
  return { startPx, endPx: startPx + slope };
}

/** Median of the sizes, by sorting a copy. */
export function medianSize(values: ArrayLike<number>): number {
  const sizes = Float64Array.from(values, Math.abs).sort();
  return sizes.length ? sizes[sizes.length >> 1] : 0;
}

/** Tukey's biweight of a residual; 0 beyond the cut. */
export function biweight(residual: number, deviation: number): number {
  const ratio = residual / (cutDeviations * deviation);
  return Math.abs(ratio) < 1 ? (1 - ratio * ratio) ** 2 : 0;
}

/**
 * The straight line through most of the points, however far the others lie.
 *
 * Least squares, weights renewed 8 times: first by 1 / |residual| (least absolute deviations), then by Tukey's biweight
 * with the deviation 1.4826 x median |residual|, at least `leastDeviationPx`.
 *
 * @returns null for fewer than 4 points, or points in one place
 * @source Huber, Robust Statistics, 1981 (from memory)
 * @rule WN15
 */
export function robustLine(points: readonly SidePoint[], leastDeviationPx: number): SideLine | null {
  if (points.length < 4) return null;
  const weights = new Float64Array(points.length).fill(1);
  let line = weightedLine(points, weights);
  for (let round = 0; round < rounds && line; round++) {
    const { startPx, endPx } = line;
    const residuals = points.map(({ along, offsetPx }) => offsetPx - startPx - along * (endPx - startPx));
    const deviation = Math.max(leastDeviationPx, 1.4826 * medianSize(residuals));
    residuals.forEach((residual, i) => {
      weights[i] =
        round < rounds / 2 ? 1 / Math.max(Math.abs(residual), leastDeviationPx) : biweight(residual, deviation);
    });
    line = weightedLine(points, weights) ?? line;
  }
  return line;
}
