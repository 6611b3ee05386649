import type { Figure } from '../contract/figure';
import { shortFigure } from '../display/figure-text';
import type { Fact } from './sheet-content';

/** A number as a person writes it: no more than 4 digits, no trailing zeros. */
export function plainNumber(value: number): string {
  return String(Number(value.toPrecision(4))).replace('-', '−');
}

export function withUnit(value: number | undefined, unit: string): string | undefined {
  return value === undefined ? undefined : `${plainNumber(value)} ${unit}`;
}

/** The parts that there are, with commas between them. */
export function joined(...parts: readonly (string | undefined | null | false)[]): string | undefined {
  const given = parts.filter((part): part is string => typeof part === 'string' && part !== '');
  return given.length === 0 ? undefined : given.join(', ');
}

/** A fact for each pair that has a value; what is not recorded is left out. @rule RS2 */
export function factsOf(pairs: readonly (readonly [label: string, value: string | undefined])[]): Fact[] {
  return pairs.flatMap(([label, value]) => (value === undefined ? [] : [{ label, value }]));
}

export function yesOrNo(value: boolean | undefined): string | undefined {
  return value === undefined ? undefined : value ? 'yes' : 'no';
}

/** As much of a figure as is printed; a record's own has an optional reason of another type. */
export type ShownFigure = Pick<Figure, 'value' | 'plusMinus'>;

/** `76 ± 6`; a figure that cannot be given is a dash: its reason stands beneath the table. */
export function figureCell(figure: ShownFigure | null | undefined, scale = 1): string {
  return figure == null || figure.value === null ? '–' : shortFigure(figure, scale).replace(/^-/, '−');
}

const months = 'January February March April May June July August September October November December'.split(' ');

/** `31 May 2026`, of an ISO 8601 day or time; the date in it is not moved to another time zone. */
export function dayText(iso: string): string {
  const [year, month, day] = iso.slice(0, 10).split('-').map(Number);
  return `${day} ${months[month - 1]} ${year}`;
}

/** A sentence: begins with a capital, ends with a full stop. */
export function sentence(text: string): string {
  const trimmed = text.trim();
  if (trimmed === '') return '';
  const capital = trimmed[0].toUpperCase() + trimmed.slice(1);
  return /[.!?]$/.test(capital) ? capital : `${capital}.`;
}
