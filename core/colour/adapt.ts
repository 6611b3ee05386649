import { applyMatrix, diagonalMatrix, invertMatrix, type Matrix3, multiplyMatrices, type Triple } from './matrix3';

export type AdaptationTransform = 'bradford' | 'cat02' | 'cat16' | 'vonKriesHpe';

/** XYZ to the cone responses in which a transform scales. */
export const coneMatrices: Readonly<Record<AdaptationTransform, Matrix3>> = {
  // Lam 1985; ICC.1 annex E
  bradford: [
    [0.8951, 0.2664, -0.1614],
    [-0.7502, 1.7135, 0.0367],
    [0.0389, -0.0685, 1.0296],
  ],
  // CIE 159:2004
  cat02: [
    [0.7328, 0.4296, -0.1624],
    [-0.7036, 1.6975, 0.0061],
    [0.003, 0.0136, 0.9834],
  ],
  // Li et al., Color Res. Appl. 42 (2017); CIE 248:2022
  cat16: [
    [0.401288, 0.650173, -0.051461],
    [-0.250268, 1.204414, 0.045854],
    [-0.002079, 0.048952, 0.953127],
  ],
  // Hunt, Pointer and Estevez, normalised to D65
  vonKriesHpe: [
    [0.40024, 0.7076, -0.08081],
    [-0.2263, 1.16532, 0.0457],
    [0, 0, 0.91822],
  ],
};

/**
 * Cone responses (long, middle, short wavelengths) of a colour, equal for D65 white: Hunt-Pointer-Estevez.
 *
 * @param xyz  any scale; the responses have it
 * @source Hunt-Pointer-Estevez matrix normalised to D65, as in colour-science/colour datasets/cat.py
 */
export function lmsFromXyz(xyz: Triple): Triple {
  return applyMatrix(coneMatrices.vonKriesHpe, xyz);
}

/**
 * Matrix that takes XYZ seen under one white to XYZ that look the same under another; adaptation is complete.
 *
 * M = C^-1 diag(C target / C source) C with the cone matrix C.
 *
 * @param sourceWhite  XYZ, same scale as `targetWhite`
 * @param transform    default Bradford, the transform of ICC profiles
 * @throws RangeError when a cone response of the source white is not above 0: there is nothing to scale
 * @source the paper named at the matrix; complete adaptation (D = 1) is our own choice: the eye in a dark room sees only the window
 * @rule CO6
 */
export function adaptationMatrix(
  sourceWhite: Triple,
  targetWhite: Triple,
  transform: AdaptationTransform = 'bradford',
): Matrix3 {
  const cone = coneMatrices[transform];
  const source = applyMatrix(cone, sourceWhite);
  const target = applyMatrix(cone, targetWhite);
  if (!source.every((response) => response > 0)) throw new RangeError(`white without cone response: ${sourceWhite}`);
  const gains = diagonalMatrix([target[0] / source[0], target[1] / source[1], target[2] / source[2]]);
  return multiplyMatrices(invertMatrix(cone), multiplyMatrices(gains, cone));
}

/**
 * One colour carried from one white to another; see `adaptationMatrix`, which is cheaper for many.
 *
 * @source see `adaptationMatrix`
 * @rule CO6
 */
export function adaptXyz(
  xyz: Triple,
  sourceWhite: Triple,
  targetWhite: Triple,
  transform: AdaptationTransform,
): Triple {
  return applyMatrix(adaptationMatrix(sourceWhite, targetWhite, transform), xyz);
}
