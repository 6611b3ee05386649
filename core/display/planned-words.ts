import type { Figure } from '../contract/figure';
import { shortFigure } from './figure-text';

/**
 * What was forecast beside what was measured, in a line; null when one of them is missing.
 *
 * Both differ beyond doubt when they lie further apart than the root of the squares of their plus-minus.
 *
 * @source JCGM 100: two figures of independent doubt, k = 2
 * @rule PN1
 */
export function plannedAgainstMeasured(planned: Figure, measured: Figure): string | null {
  if (planned.value === null || measured.value === null) return null;
  const apart = measured.value - planned.value;
  const open = Math.hypot(planned.plusMinus ?? 0, measured.plusMinus ?? 0);
  const both = `forecast ${shortFigure(planned)}, measured ${shortFigure(measured)}`;
  if (Math.abs(apart) <= open) return `As planned: ${both}.`;
  return `${apart > 0 ? 'Better than planned' : 'Not as planned'}: ${both}.`;
}
