import type { Chromaticity } from './constants';
import type { Triple } from './matrix3';

/** CIE 1976 uniform chromaticity. */
export interface Uv1976 {
  readonly uPrime: number;
  readonly vPrime: number;
}

/** CIE 1960 uniform chromaticity: only for CCT and Duv. */
export interface Uv1960 {
  readonly u: number;
  readonly v: number;
}

/**
 * Chromaticity of a colour: x = X/(X+Y+Z), y = Y/(X+Y+Z).
 *
 * Black (X + Y + Z = 0) has no chromaticity: x and y are NaN. "No value" is NaN here as in a plane.
 *
 * @param xyz  any scale; the result does not depend on it
 * @source CIE 015:2018
 * @rule CO1, CO2
 */
export function xyFromXyz(xyz: Triple): Chromaticity {
  const sum = xyz[0] + xyz[1] + xyz[2];
  return sum === 0 ? { x: NaN, y: NaN } : { x: xyz[0] / sum, y: xyz[1] / sum };
}

/**
 * XYZ of a chromaticity at a relative luminance: X = x Y/y, Z = (1-x-y) Y/y.
 *
 * @param relLuminance  Y of the result, default 1
 * @throws RangeError when y is 0 or less: such a colour has no luminance
 * @source CIE 015:2018
 */
export function xyzFromXy(xy: Chromaticity, relLuminance = 1): Triple {
  if (!(xy.y > 0)) throw new RangeError(`no luminance at y = ${xy.y}`);
  const scale = relLuminance / xy.y;
  return [xy.x * scale, relLuminance, (1 - xy.x - xy.y) * scale];
}

/**
 * CIE 1976 chromaticity: u' = 4X/(X+15Y+3Z), v' = 9Y/(X+15Y+3Z); NaN for black.
 *
 * @source CIE 015:2018
 * @rule CO1, CO2
 */
export function uv1976FromXyz(xyz: Triple): Uv1976 {
  const sum = xyz[0] + 15 * xyz[1] + 3 * xyz[2];
  return sum === 0 ? { uPrime: NaN, vPrime: NaN } : { uPrime: (4 * xyz[0]) / sum, vPrime: (9 * xyz[1]) / sum };
}

/**
 * CIE 1976 chromaticity of an xy chromaticity: u' = 4x/(-2x+12y+3), v' = 9y/(-2x+12y+3).
 *
 * @source CIE 015:2018
 */
export function uv1976FromXy(xy: Chromaticity): Uv1976 {
  const sum = -2 * xy.x + 12 * xy.y + 3;
  return { uPrime: (4 * xy.x) / sum, vPrime: (9 * xy.y) / sum };
}

/**
 * The inverse: x = 9u'/(6u'-16v'+12), y = 4v'/(6u'-16v'+12).
 *
 * @source CIE 015:2018
 */
export function xyFromUv1976(uv: Uv1976): Chromaticity {
  const sum = 6 * uv.uPrime - 16 * uv.vPrime + 12;
  return { x: (9 * uv.uPrime) / sum, y: (4 * uv.vPrime) / sum };
}

/**
 * CIE 1960 chromaticity, u = u', v = 2/3 v'; NaN for black.
 *
 * @source CIE 015:2018
 */
export function uv1960FromXyz(xyz: Triple): Uv1960 {
  return uv1960FromUv1976(uv1976FromXyz(xyz));
}

/**
 * u = u', v = 2/3 v'.
 *
 * @source CIE 015:2018
 */
export function uv1960FromUv1976(uv: Uv1976): Uv1960 {
  return { u: uv.uPrime, v: (2 / 3) * uv.vPrime };
}

/**
 * u' = u, v' = 3/2 v.
 *
 * @source CIE 015:2018
 */
export function uv1976FromUv1960(uv: Uv1960): Uv1976 {
  return { uPrime: uv.u, vPrime: 1.5 * uv.v };
}
