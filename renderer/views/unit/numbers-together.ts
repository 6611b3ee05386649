/** Each number of a field as a text of its own: as it is about to be saved, else as the record has it; '' when nobody gave it. */
export function keptNumbers(
  unsaved: string | undefined,
  values: readonly number[] | undefined,
  count: number,
): readonly string[] {
  const texts = unsaved === undefined ? (values ?? []).map(String) : unsaved.split(',');
  return Array.from({ length: count }, (_, i) => texts[i] ?? '');
}

/**
 * What stands in the inputs once the numbers behind them have changed: only a number that did change is taken over, so that one
 * that is being typed stays.
 */
export function takenOver(
  typed: readonly string[],
  before: readonly string[],
  now: readonly string[],
): readonly string[] {
  return typed.map((text, i) => (now[i] === before[i] ? text : now[i]));
}

/** The numbers as the text of their field, those that nobody gave by what they are otherwise; '' when none is given. */
export function wholeText(numbers: readonly string[], otherwise: readonly number[]): string {
  if (numbers.every((text) => text === '')) return '';
  return numbers.map((text, i) => (text === '' ? String(otherwise[i]) : text)).join(',');
}
