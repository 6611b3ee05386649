import type { Triple } from './matrix3';

/** CIE 1931 chromaticity. */
export interface Chromaticity {
  readonly x: number;
  readonly y: number;
}

/** Knee of the L* curve as relative luminance. @source CIE 015:2018, exact form (6/29)^3 */
export const labEpsilon = 216 / 24389;
/** Slope of the L* curve near black. @source CIE 015:2018, exact form (29/3)^3 */
export const labKappa = 24389 / 27;

/** Second radiation constant of the temperature scale of CCT, m K. @source CIE 015:2018 (ITS-90 value 1.4388e-2) */
export const secondRadiationMK = 1.4388e-2;
/** Second radiation constant that defines illuminant A together with 2848 K, m K. @source ISO/CIE 11664-2 */
export const secondRadiationIlluminantAMK = 1.435e-2;
/** First radiation constant for radiance 2 h c^2, W m2/sr. @source SI 2019: h = 6.62607015e-34, c = 299792458 */
export const firstRadiationRadianceWM2 = 2 * 6.62607015e-34 * 299792458 ** 2;

/** White of sRGB, Display P3, Adobe RGB (1998) and Rec.2020: not quite the chromaticity computed from the D65 spectrum. */
export const whiteD65: Chromaticity = { x: 0.3127, y: 0.329 };
/** D50 as graphic arts print it, four decimals. The ICC white is `iccD50Xyz`. */
export const whiteD50: Chromaticity = { x: 0.3457, y: 0.3585 };
/** Illuminant A, tungsten light of 2856 K. */
export const whiteA: Chromaticity = { x: 0.44757, y: 0.40745 };
/** Illuminant C, the old daylight. */
export const whiteC: Chromaticity = { x: 0.31006, y: 0.31616 };
/** Equal energy at every wavelength. */
export const whiteE: Chromaticity = { x: 1 / 3, y: 1 / 3 };

/** White of the profile connection space. @source ICC.1:2022 7.2.16: 0.9642 1 0.8249, as the 16.16 numbers in a file */
export const iccD50Xyz: Triple = [0xf6d6 / 65536, 1, 0xd32d / 65536];

/** Radius of one step in u'v'. @source CIE TN 001:2014 (from memory) */
export const uvStep = 0.0011;
