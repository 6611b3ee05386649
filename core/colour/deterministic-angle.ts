// Math.sin and Math.cos may differ in the last digits between JavaScript engines; these use only + - * / and rounding,
// which the language defines exactly, so that a figure is the same wherever it is computed.

const radiansPerDegree = Math.PI / 180;

/** Taylor coefficients of sin x / x and cos x in x^2; |x| <= pi/4 leaves less than 1e-16. */
const sineTerms = [1, -1 / 6, 1 / 120, -1 / 5040, 1 / 362880, -1 / 39916800, 1 / 6227020800, -1 / 1307674368000];
const cosineTerms = [1, -1 / 2, 1 / 24, -1 / 720, 1 / 40320, -1 / 3628800, 1 / 479001600, -1 / 87178291200];

function polynomial(terms: readonly number[], square: number): number {
  let sum = 0;
  for (let i = terms.length - 1; i >= 0; i--) sum = sum * square + terms[i];
  return sum;
}

/** Sine of an angle plus so many quarter turns: the turns are added after the reduction, where they cost no digits. */
function sineOf(angleDeg: number, addedQuarters: number): number {
  const quarters = Math.round(angleDeg / 90);
  const x = (angleDeg - 90 * quarters) * radiansPerDegree;
  const square = x * x;
  const quadrant = (((quarters + addedQuarters) % 4) + 4) % 4;
  const size = quadrant % 2 === 0 ? x * polynomial(sineTerms, square) : polynomial(cosineTerms, square);
  return quadrant < 2 ? size : -size;
}

/**
 * Sine of an angle in degrees, the same in every JavaScript engine; error below 1e-15 for |angle| < 1e6.
 *
 * Reduced to the nearest quarter turn (exact in degrees), then a Taylor polynomial of degree 15.
 *
 * @source Taylor series; our own choice instead of Math.sin for equal results everywhere
 */
export function sinDeg(angleDeg: number): number {
  return sineOf(angleDeg, 0);
}

/**
 * Cosine of an angle in degrees, a quarter turn ahead of the sine; see `sinDeg`.
 *
 * @source see `sinDeg`
 */
export function cosDeg(angleDeg: number): number {
  return sineOf(angleDeg, 1);
}

/**
 * Direction of (x, y) in degrees, 0 <= angle < 360; 0 for the origin.
 *
 * @source common practice; Math.atan2 agrees between the engines that were measured
 */
export function directionDeg(y: number, x: number): number {
  if (x === 0 && y === 0) return 0;
  const angle = Math.atan2(y, x) / radiansPerDegree;
  // -1e-20 + 360 rounds to 360, which is 0 again.
  return angle < 0 ? (angle + 360) % 360 : angle;
}
