import type { Curve } from '../code-light';
import { lightOfCode, type ResponsePolynomial } from './polynomial';

/** How a camera turns light into codes, recovered from an exposure series: code to light, a channel. */
export interface CameraResponse {
  readonly red: ResponsePolynomial;
  readonly green: ResponsePolynomial;
  readonly blue: ResponsePolynomial;
  /** The codes were found to be light already. */
  readonly isLinear: boolean;
  /** Something speaks against trusting it more than the file's own curve; left out: nothing does. */
  readonly isDoubted?: boolean;
}

/** Codes that are light. */
const proportional: ResponsePolynomial = [0, 1];

export const linearResponse: CameraResponse = {
  red: proportional,
  green: proportional,
  blue: proportional,
  isLinear: true,
};

/** Under this code a curve is not told: there merging trusts none. */
const lowestTold = 4 / 255;

/** Light of a code of 0..1. @rule BR2 */
export function curveOfPolynomial(polynomial: ResponsePolynomial): Curve {
  const lowest = Math.max(0, lightOfCode(polynomial, lowestTold));
  return (code) => (code < lowestTold ? (lowest * code) / lowestTold : Math.max(0, lightOfCode(polynomial, code)));
}

/** The curves of red, green and blue; light is never below 0, and falls to 0 on a line below the codes that are told. @rule BR2 */
export function curvesOfResponse({ red, green, blue }: CameraResponse): readonly [Curve, Curve, Curve] {
  return [curveOfPolynomial(red), curveOfPolynomial(green), curveOfPolynomial(blue)];
}
