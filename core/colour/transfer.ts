/** How code values of a colour space stand for light. */
export interface TransferFunction {
  /** Encoded 0..1 to linear light 0..1; odd about 0, so that values outside the gamut keep their meaning. */
  readonly linearFromEncoded: (encoded: number) => number;
  /** Linear light to encoded, the inverse. */
  readonly encodedFromLinear: (linear: number) => number;
}

/** The same curve mirrored about 0: a slightly negative channel is a colour outside the gamut, not an error. */
function mirrored(curve: (value: number) => number): (value: number) => number {
  return (value) => (value < 0 ? -curve(-value) : curve(value));
}

/**
 * sRGB decoding: c <= 0.04045: c/12.92, else ((c+0.055)/1.055)^2.4. Display P3 uses the same.
 *
 * @param encoded  0..1 (code / 255); beyond that the curve goes on, and below 0 it is mirrored
 * @returns linear light, 0..1
 * @source IEC 61966-2-1:1999
 * @rule CO3
 */
export const linearFromSrgb = mirrored((encoded) =>
  encoded <= 0.04045 ? encoded / 12.92 : Math.pow((encoded + 0.055) / 1.055, 2.4),
);

/**
 * sRGB encoding: l <= 0.0031308: 12.92 l, else 1.055 l^(1/2.4) - 0.055.
 *
 * @param linear  linear light, 0..1
 * @source IEC 61966-2-1:1999
 * @rule CO3
 */
export const srgbFromLinear = mirrored((linear) =>
  linear <= 0.0031308 ? 12.92 * linear : 1.055 * Math.pow(linear, 1 / 2.4) - 0.055,
);

/** Gamma of Adobe RGB (1998), exactly 2 + 51/256. */
const adobeGamma = 563 / 256;
/** Constants of the Rec.2020 curve, at full precision: the two pieces meet in value and slope. */
const rec2020Alpha = 1.09929682680944;
const rec2020Beta = 0.018053968510807;

export const srgbTransfer: TransferFunction = {
  linearFromEncoded: linearFromSrgb,
  encodedFromLinear: srgbFromLinear,
};

/** v^(563/256). @source Adobe RGB (1998) Color Image Encoding, 2005-05, 4.3.4.2 (from memory) */
export const adobeRgbTransfer: TransferFunction = {
  linearFromEncoded: mirrored((encoded) => Math.pow(encoded, adobeGamma)),
  encodedFromLinear: mirrored((linear) => Math.pow(linear, 1 / adobeGamma)),
};

/** The inverse of the camera's curve: v < 4.5 beta: v/4.5, else ((v+alpha-1)/alpha)^(1/0.45). @source ITU-R BT.2020-2 */
export const rec2020Transfer: TransferFunction = {
  linearFromEncoded: mirrored((encoded) =>
    encoded < 4.5 * rec2020Beta ? encoded / 4.5 : Math.pow((encoded + rec2020Alpha - 1) / rec2020Alpha, 1 / 0.45),
  ),
  encodedFromLinear: mirrored((linear) =>
    linear < rec2020Beta ? 4.5 * linear : rec2020Alpha * Math.pow(linear, 0.45) - (rec2020Alpha - 1),
  ),
};
