import { adaptationMatrix } from '../colour/adapt';
import { xyzFromXy } from '../colour/chromaticity';
import { iccD50Xyz, whiteD65 } from '../colour/constants';
import { multiplyMatrices, type Matrix3 } from '../colour/matrix3';
import { srgbSpace } from '../colour/spaces';

/**
 * XYZ of the profile connection space (D50) to linear sRGB (D65): Bradford, then the inverse of sRGB's primaries.
 *
 * @source ICC.1:2022, annex E (Bradford); IEC 61966-2-1:1999 (primaries)
 * @rule PX4
 */
export const linearSrgbFromConnectionXyz: Matrix3 = multiplyMatrices(
  srgbSpace.rgbFromXyz,
  adaptationMatrix(iccD50Xyz, xyzFromXy(whiteD65), 'bradford'),
);
