import { xyzFromXy } from './chromaticity';
import { type Chromaticity, whiteD65 } from './constants';
import { applyMatrix, diagonalMatrix, invertMatrix, type Matrix3, multiplyMatrices, type Triple } from './matrix3';
import { adobeRgbTransfer, rec2020Transfer, srgbTransfer, type TransferFunction } from './transfer';

/** An RGB colour space: where its primaries lie, and how its codes stand for light. */
export interface RgbSpace {
  readonly name: string;
  /** Red, green, blue. */
  readonly primaries: readonly [Chromaticity, Chromaticity, Chromaticity];
  readonly white: Chromaticity;
  readonly transfer: TransferFunction;
  /** Linear RGB (white = 1 1 1) to XYZ under the space's own white (Y = 1), and back. */
  readonly xyzFromRgb: Matrix3;
  readonly rgbFromXyz: Matrix3;
}

/**
 * Matrix from linear RGB to XYZ: the columns are the XYZ of the primaries, scaled so that 1 1 1 is the white at Y = 1.
 *
 * Derived in double precision instead of taken from a printed matrix: those are rounded, and differ by up to 4e-5.
 *
 * @throws RangeError when the primaries lie on one line
 * @source SMPTE RP 177-1993 (from memory)
 * @rule CO4
 */
export function xyzFromRgbMatrix(primaries: RgbSpace['primaries'], white: Chromaticity): Matrix3 {
  const [r, g, b] = primaries.map((primary) => xyzFromXy(primary));
  const columns: Matrix3 = [
    [r[0], g[0], b[0]],
    [r[1], g[1], b[1]],
    [r[2], g[2], b[2]],
  ];
  return multiplyMatrices(columns, diagonalMatrix(applyMatrix(invertMatrix(columns), xyzFromXy(white))));
}

function rgbSpace(
  name: string,
  primaries: readonly [number, number, number, number, number, number],
  transfer: TransferFunction,
): RgbSpace {
  const [xr, yr, xg, yg, xb, yb] = primaries;
  const points = [
    { x: xr, y: yr },
    { x: xg, y: yg },
    { x: xb, y: yb },
  ] as const;
  const xyzFromRgb = xyzFromRgbMatrix(points, whiteD65);
  return { name, primaries: points, white: whiteD65, transfer, xyzFromRgb, rgbFromXyz: invertMatrix(xyzFromRgb) };
}

/** @source IEC 61966-2-1:1999 */
export const srgbSpace = rgbSpace('sRGB', [0.64, 0.33, 0.3, 0.6, 0.15, 0.06], srgbTransfer);
/** @source primaries of SMPTE EG 432-1, white D65, curve of sRGB */
export const displayP3Space = rgbSpace('Display P3', [0.68, 0.32, 0.265, 0.69, 0.15, 0.06], srgbTransfer);
/** @source Adobe RGB (1998) Color Image Encoding, 2005-05 */
export const adobeRgbSpace = rgbSpace('Adobe RGB (1998)', [0.64, 0.33, 0.21, 0.71, 0.15, 0.06], adobeRgbTransfer);
/** @source ITU-R BT.2020-2 */
export const rec2020Space = rgbSpace('Rec.2020', [0.708, 0.292, 0.17, 0.797, 0.131, 0.046], rec2020Transfer);

/**
 * Linear sRGB to XYZ, relative to D65 with Y = 1. Values outside 0..1 are colours outside the gamut, not clipped.
 *
 * @source IEC 61966-2-1:1999, matrix derived from primaries and white
 * @rule CO4
 */
export function xyzFromLinearSrgb(rgb: Triple): Triple {
  return applyMatrix(srgbSpace.xyzFromRgb, rgb);
}

/**
 * XYZ (D65, Y = 1) to linear sRGB; nothing is clipped.
 *
 * @source IEC 61966-2-1:1999, matrix derived from primaries and white
 */
export function linearSrgbFromXyz(xyz: Triple): Triple {
  return applyMatrix(srgbSpace.rgbFromXyz, xyz);
}

/**
 * Encoded values of an RGB space (0..1 each) to XYZ under the space's white, Y = 1.
 *
 * @source the standard named at the space
 */
export function xyzFromEncodedRgb(rgb: Triple, space: RgbSpace): Triple {
  const { linearFromEncoded } = space.transfer;
  return applyMatrix(space.xyzFromRgb, [
    linearFromEncoded(rgb[0]),
    linearFromEncoded(rgb[1]),
    linearFromEncoded(rgb[2]),
  ]);
}

/**
 * XYZ under the space's white (Y = 1) to encoded values of that space; outside 0..1 when outside its gamut.
 *
 * @source the standard named at the space
 */
export function encodedRgbFromXyz(xyz: Triple, space: RgbSpace): Triple {
  const { encodedFromLinear } = space.transfer;
  const linear = applyMatrix(space.rgbFromXyz, xyz);
  return [encodedFromLinear(linear[0]), encodedFromLinear(linear[1]), encodedFromLinear(linear[2])];
}
