import { labEpsilon, labKappa } from './constants';
import type { Triple } from './matrix3';

function labCurve(ratio: number): number {
  return ratio > labEpsilon ? Math.cbrt(ratio) : (labKappa * ratio + 16) / 116;
}

function ratioFromLabCurve(f: number): number {
  const cube = f * f * f;
  return cube > labEpsilon ? cube : (116 * f - 16) / labKappa;
}

/**
 * CIELAB: L* 0..100, a* (green to red), b* (blue to yellow).
 *
 * L* = 116 f(Y/Yn) - 16, a* = 500 (f(X/Xn) - f(Y/Yn)), b* = 200 (f(Y/Yn) - f(Z/Zn)),
 * f(t) = t^(1/3) above 216/24389, else (24389/27 t + 16)/116.
 * Adapts nothing: XYZ and white must belong to one illuminant.
 *
 * @param white  XYZ of the reference white at the scale of `xyz`; no default, since the choice changes every difference
 * @source CIE 015:2018; ISO/CIE 11664-4:2019
 * @rule CO5
 */
export function labFromXyz(xyz: Triple, white: Triple): Triple {
  const fx = labCurve(xyz[0] / white[0]);
  const fy = labCurve(xyz[1] / white[1]);
  const fz = labCurve(xyz[2] / white[2]);
  return [116 * fy - 16, 500 * (fx - fy), 200 * (fy - fz)];
}

/**
 * The inverse of `labFromXyz`.
 *
 * @param white  XYZ of the reference white; the result has its scale
 * @source CIE 015:2018; ISO/CIE 11664-4:2019
 * @rule CO5
 */
export function xyzFromLab(lab: Triple, white: Triple): Triple {
  const fy = (lab[0] + 16) / 116;
  return [
    white[0] * ratioFromLabCurve(fy + lab[1] / 500),
    white[1] * ratioFromLabCurve(fy),
    white[2] * ratioFromLabCurve(fy - lab[2] / 200),
  ];
}
