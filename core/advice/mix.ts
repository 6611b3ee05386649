import { uv1976FromXyz, xyFromUv1976, xyzFromXy, type Uv1976 } from '../colour/chromaticity';
import { applyMatrix, invertMatrix, type Matrix3, type Triple } from '../colour/matrix3';
import { uvDistance } from '../colour/steps';

/** A mix of lamps: what each gives of its light, and the colour of the whole. */
export interface Mix {
  /** Share of the luminance, one a lamp, sum 1. */
  readonly luminanceShares: readonly number[];
  readonly reached: Uv1976;
  /** Distance to the target in u'v'; 0 when it is reached. */
  readonly missUv: number;
}

/**
 * Colour of a mix of lights.
 *
 * @param luminances  one a light, 0 or more, not all 0
 * @param colours     XYZ of each, Y above 0
 * @source additive mixing, CIE 015:2018
 * @rule LA5
 */
export function colourOfMix(luminances: readonly number[], colours: readonly Triple[]): Uv1976 {
  const sum = [0, 1, 2].map((axis) =>
    colours.reduce((total, xyz, i) => total + (luminances[i] * xyz[axis]) / xyz[1], 0),
  );
  return uv1976FromXyz([sum[0], sum[1], sum[2]]);
}

/** Parts as shares of the whole, sum 1. */
export function asShares(parts: readonly number[]): number[] {
  const all = parts.reduce((sum, value) => sum + value, 0);
  return parts.map((value) => value / all);
}

function mixFrom(luminances: readonly number[], colours: readonly Triple[], target: Uv1976): Mix {
  const reached = colourOfMix(luminances, colours);
  return { luminanceShares: asShares(luminances), reached, missUv: uvDistance(reached, target) };
}

/**
 * Place of a colour along the line between two others in u'v', 0 at b, 1 at a, beyond them outside 0..1.
 *
 * @source projection; in u'v' a mix lies on the straight line between its parts (CIE 015:2018)
 * @rule LA5
 */
export function placeOnLine(a: Uv1976, b: Uv1976, colour: Uv1976): number {
  const [du, dv] = [a.uPrime - b.uPrime, a.vPrime - b.vPrime];
  const square = du * du + dv * dv;
  if (square < 1e-12) return 0.5;
  return ((colour.uPrime - b.uPrime) * du + (colour.vPrime - b.vPrime) * dv) / square;
}

/**
 * The mix of two lamps that comes nearest to a target in u'v'.
 *
 * w = (T - B).(A - B) / |A - B|^2, cut to 0..1; luminance share of A = w v'A / (w v'A + (1 - w) v'B).
 *
 * @param colours  XYZ of both, Y above 0
 * @source weights Y/v' of a mix in u'v', from its definition (CIE 015:2018)
 * @rule LA5
 */
export function mixOfTwo(colours: readonly [Triple, Triple], target: Uv1976): Mix {
  const [a, b] = [uv1976FromXyz(colours[0]), uv1976FromXyz(colours[1])];
  const place = Math.min(1, Math.max(0, placeOnLine(a, b, target)));
  return mixFrom([place * a.vPrime, (1 - place) * b.vPrime], colours, target);
}

/** Luminances of three lamps that make a colour of luminance 1, below 0 where a lamp would have to take light away. */
function solvedLuminances(colours: readonly [Triple, Triple, Triple], target: Uv1976): Triple | null {
  const [a, b, c] = colours.map(([X, Y, Z]): Triple => [X / Y, 1, Z / Y]);
  const columns: Matrix3 = [
    [a[0], b[0], c[0]],
    [a[1], b[1], c[1]],
    [a[2], b[2], c[2]],
  ];
  try {
    return applyMatrix(invertMatrix(columns), xyzFromXy(xyFromUv1976(target)));
  } catch (error) {
    // Three lamps on one line have no single solution: two of them do as well.
    if (error instanceof RangeError) return null;
    throw error;
  }
}

const pairs = [
  [0, 1],
  [0, 2],
  [1, 2],
] as const;

/**
 * The mix of three lamps that comes nearest to a target in u'v': the linear system of their XYZ; where it asks a lamp for less than
 * nothing, the best pair of them.
 *
 * @param colours  XYZ of the three, Y above 0
 * @source additive mixing, CIE 015:2018; the nearest point of a triangle lies on one of its sides
 * @rule LA6
 */
export function mixOfThree(colours: readonly [Triple, Triple, Triple], target: Uv1976): Mix {
  const solved = solvedLuminances(colours, target);
  if (solved !== null && solved.every((luminance) => luminance >= 0)) return mixFrom(solved, colours, target);
  const sides = pairs.map(([i, j]) => {
    const { luminanceShares } = mixOfTwo([colours[i], colours[j]], target);
    const luminances = [0, 0, 0];
    luminances[i] = luminanceShares[0];
    luminances[j] = luminanceShares[1];
    return mixFrom(luminances, colours, target);
  });
  return sides.reduce((best, side) => (side.missUv < best.missUv ? side : best));
}

/**
 * The mix of two or three lamps that comes nearest to a target.
 *
 * @throws RangeError for another count
 * @source see `mixOfTwo` and `mixOfThree`
 * @rule LA5, LA6
 */
export function mixOf(colours: readonly Triple[], target: Uv1976): Mix {
  const [a, b, c] = colours;
  if (colours.length === 2) return mixOfTwo([a, b], target);
  if (colours.length === 3) return mixOfThree([a, b, c], target);
  throw new RangeError(`a mix of ${colours.length} lamps`);
}

/**
 * Currents that give a mix: share over light per mA, scaled until the first lamp is at its limit.
 *
 * @param luminanceShares  sum 1
 * @param lightPerMa       of each, any unit alike, above 0
 * @param limitsMa         the largest current that each may have, above 0
 * @returns mA; 0 for a lamp without share
 * @source light in step with the current, our own choice: real LEDs droop by about 10 %
 * @rule LA7
 */
export function currentsOfMix(
  luminanceShares: readonly number[],
  lightPerMa: readonly number[],
  limitsMa: readonly number[],
): number[] {
  const wanted = luminanceShares.map((share, i) => share / lightPerMa[i]);
  const scale = Math.min(...wanted.map((value, i) => (value > 0 ? limitsMa[i] / value : Infinity)));
  return wanted.map((value) => value * scale);
}
