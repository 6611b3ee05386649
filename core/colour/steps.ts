import type { Uv1976 } from './chromaticity';
import { uvStep } from './constants';

/** Convention of the trade, from "same" (cannot be told apart) to "different colour". */
export type ColourBand = 'same' | 'close' | 'visible' | 'different';

/**
 * Distance of two chromaticities in u'v'; NaN when either has no chromaticity.
 *
 * @source CIE 015:2018
 */
export function uvDistance(a: Uv1976, b: Uv1976): number {
  return Math.sqrt((a.uPrime - b.uPrime) ** 2 + (a.vPrime - b.vPrime) ** 2);
}

/**
 * Distance in steps: an n-step circle in u'v' has the radius 0.0011 n.
 *
 * @param distance  u'v' distance, 0 or more
 * @source CIE TN 001:2014 (from memory)
 * @rule CO11
 */
export function stepsFromUvDistance(distance: number): number {
  return distance / uvStep;
}

/**
 * Word for a distance in steps: <= 1 same, <= 3 close, <= 5 visible side by side, else a different colour.
 * A distance of exactly n steps is within n steps (slack 1e-9 against rounding).
 *
 * Says how far apart two colours are, not whether a camera can certify it.
 *
 * @throws RangeError for NaN or a negative number: no colour, no word
 * @source our own bands by the convention of the lighting trade (1, 3, 5 step circles)
 * @rule CO11
 */
export function bandFromSteps(steps: number): ColourBand {
  if (!(steps >= 0)) throw new RangeError(`no band for ${steps} steps`);
  const counted = steps - 1e-9;
  if (counted <= 1) return 'same';
  if (counted <= 3) return 'close';
  return counted <= 5 ? 'visible' : 'different';
}
