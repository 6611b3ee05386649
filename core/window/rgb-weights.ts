import { coneMatrices } from '../colour/adapt';
import { multiplyMatrices, type Triple } from '../colour/matrix3';
import { srgbSpace } from '../colour/spaces';

/** Weights of linear sRGB's red, green and blue. */
export type RgbWeights = Triple;

/** Relative luminance of linear sRGB. @source IEC 61966-2-1:1999, derived from its primaries */
export const luminanceWeights: RgbWeights = srgbSpace.xyzFromRgb[1];

const conesFromRgb = multiplyMatrices(coneMatrices.vonKriesHpe, srgbSpace.xyzFromRgb);
/** Long and middle cone responses of linear sRGB, D65 (Hunt-Pointer-Estevez), multiplied out once for the pixel loops. */
export const longCone: RgbWeights = conesFromRgb[0];
export const middleCone: RgbWeights = conesFromRgb[1];
