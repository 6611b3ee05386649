import { figureText } from './figure-text';

/**
 * A measuring point in per cent of the brightest, as it is shown everywhere: `78 ± 5`, and `100` alone, since the brightest is that
 * by definition.
 *
 * @param plusMinus  k = 2, as the value 0..1
 * @rule EV8
 */
export function pointText(value: number, plusMinus: number): string {
  if (plusMinus === 0) return (100 * value).toFixed(0);
  const text = figureText(100 * value, 100 * plusMinus);
  return `${text.value} ± ${text.plusMinus}`;
}
