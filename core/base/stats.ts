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

/** Moves values about until `values[place]` is what it would be if they were sorted, smaller ones before it, larger behind. */
function select(values: Float64Array, place: number): void {
  let from = 0;
  let to = values.length - 1;
  while (from < to) {
    const pivot = middleOf(values[from], values[(from + to) >> 1], values[to]);
    let left = from;
    let right = to;
    while (left <= right) {
      while (values[left] < pivot) left++;
      while (values[right] > pivot) right--;
      if (left > right) break;
      const swapped = values[left];
      values[left++] = values[right];
      values[right--] = swapped;
    }
    if (place <= right) to = right;
    else if (place >= left) from = left;
    else return;
  }
}

function middleOf(a: number, b: number, c: number): number {
  return Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
}

function smallestFrom(values: Float64Array, from: number): number {
  let smallest = values[from];
  for (let i = from + 1; i < values.length; i++) if (values[i] < smallest) smallest = values[i];
  return smallest;
}

/**
 * Percentile with linear interpolation between the order statistics (the first at 0, the last at 100).
 *
 * @param values   any order, finite; not altered
 * @param percents each 0..100
 * @returns one value a percent; NaN for an empty list
 * @source Hyndman & Fan, Sample quantiles in statistical packages, 1996, definition 7 (from memory); found by selection:
 *   Hoare, Algorithm 65: find, 1961 (from memory)
 */
export function percentilesOf(values: ArrayLike<number>, percents: readonly number[]): number[] {
  const moved = Float64Array.from(values);
  return percents.map((percent) => {
    if (moved.length === 0) return NaN;
    const place = (percent / 100) * (moved.length - 1);
    const below = Math.floor(place);
    select(moved, below);
    const above = below + 1 < moved.length ? smallestFrom(moved, below + 1) : moved[below];
    return moved[below] + (above - moved[below]) * (place - below);
  });
}

/** Median; NaN for an empty list. Not altered. */
export function medianOf(values: ArrayLike<number>): number {
  return percentilesOf(values, [50])[0];
}
