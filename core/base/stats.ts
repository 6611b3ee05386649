/** Mean of a list; NaN when it is empty. */
export function meanOf(values: ArrayLike<number>): number {
  let sum = 0;
  for (let i = 0; i < values.length; i++) sum += values[i];
  return values.length ? sum / values.length : NaN;
}

/** Population standard deviation; NaN when the list is empty. */
export function populationDeviationOf(values: ArrayLike<number>): number {
  const mean = meanOf(values);
  let sum = 0;
  for (let i = 0; i < values.length; i++) sum += (values[i] - mean) ** 2;
  return values.length ? Math.sqrt(sum / values.length) : NaN;
}

/**
 * Percentile with linear interpolation between the order statistics (the first at 0, the last at 100).
 *
 * @param values   any order, finite; not altered
 * @param percents each 0..100
 * @returns one value a percent; NaN for an empty list
 * @source Hyndman & Fan, Sample quantiles in statistical packages, 1996, definition 7 (from memory)
 */
export function percentilesOf(values: ArrayLike<number>, percents: readonly number[]): number[] {
  const sorted = Float64Array.from(values).sort();
  return percents.map((percent) => {
    if (sorted.length === 0) return NaN;
    const place = (percent / 100) * (sorted.length - 1);
    const below = Math.floor(place);
    const above = Math.min(below + 1, sorted.length - 1);
    return sorted[below] + (sorted[above] - sorted[below]) * (place - below);
  });
}

/** Median; NaN for an empty list. Not altered. */
export function medianOf(values: ArrayLike<number>): number {
  return percentilesOf(values, [50])[0];
}
