/** Steps between the marks of an axis: 1, 2 or 5 times a power of ten. */
function stepFor(range: number, most: number): number {
  const rough = range / most;
  const power = 10 ** Math.floor(Math.log10(rough));
  return power * ([1, 2, 5].find((factor) => factor * power >= rough) ?? 10);
}

/** Round values between two ends, as many as there is room for. */
export function axisTicks(from: number, to: number, most: number): number[] {
  const step = stepFor(to - from, most);
  const [first, last] = [Math.ceil(from / step - 1e-9), Math.floor(to / step + 1e-9)];
  // Multiples, not sums: 0.1 + 0.2 is no tick.
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, i) => Number(((first + i) * step).toPrecision(12)));
}

/** The range of values with their plus-minus, a little wider; at least `least` wide. */
export function axisRange(
  values: readonly { readonly value: number; readonly plusMinus: number }[],
  least: number,
): readonly [number, number] {
  const low = Math.min(...values.map(({ value, plusMinus }) => value - plusMinus));
  const high = Math.max(...values.map(({ value, plusMinus }) => value + plusMinus));
  const spare = Math.max(0.08 * (high - low), (least - (high - low)) / 2, 0);
  return [low - spare, high + spare];
}
