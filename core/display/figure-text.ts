import type { Figure } from '../contract/figure';

/** Shown where a figure is missing: hatched, never blank, as everywhere in Evendial. */
export const hatched = '///';

/** A value and its plus-minus as printed, to the same decimal place. */
export interface FigureText {
  readonly value: string;
  readonly plusMinus: string;
}

/** The place (power of ten) that a plus-minus is printed to: one digit, two if it is 10 or more. */
function placeOfPlusMinus(plusMinus: number): number {
  const power = Math.floor(Math.log10(plusMinus) + 1e-12);
  return power >= 1 ? power - 1 : power;
}

function fixed(value: number, place: number): string {
  const text = place >= 0 ? String(Math.round(value / 10 ** place) * 10 ** place) : value.toFixed(-place);
  return Number(text) === 0 ? text.replace('-', '') : text;
}

/**
 * Plus-minus rounded up to one digit (two if it is 10 or more), the value to the same place: 76.3 and 5.2 give 76 and 6.
 * A plus-minus of 0 leaves the value with 3 digits.
 *
 * @source our own choice: rounding up never promises more than was measured
 * @rule CL6
 */
export function figureText(value: number, plusMinus: number): FigureText {
  if (plusMinus === 0) return { value: String(Number(value.toPrecision(3))), plusMinus: '0' };
  let place = placeOfPlusMinus(plusMinus);
  // The small amount keeps 0.07 / 0.01 = 7.000000000000001 from becoming 8.
  let steps = Math.ceil(plusMinus / 10 ** place - 1e-9);
  const again = placeOfPlusMinus(steps * 10 ** place);
  if (again !== place) {
    steps = Math.ceil((steps * 10 ** place) / 10 ** again - 1e-9);
    place = again;
  }
  return { value: fixed(value, place), plusMinus: fixed(steps * 10 ** place, place) };
}

/** `76 ± 6`, or the hatching. `scale` multiplies both numbers first. */
export function shortFigure(figure: Figure, scale = 1): string {
  if (figure.value === null || figure.plusMinus === null) return hatched;
  const { value, plusMinus } = figureText(figure.value * scale, figure.plusMinus * scale);
  return `${value} ± ${plusMinus}`;
}

/** Text from outside (file names, words of a file) that must not move the cursor or break a line. */
export function printable(text: string): string {
  return text.replace(
    /[\p{Cc}\u2028\u2029\u202a-\u202e\u2066-\u2069]/gu,
    (sign) => `\\u${(sign.codePointAt(0) ?? 0).toString(16).padStart(4, '0')}`,
  );
}
