/** A rectangle of whole pixels of the upright photo. */
export interface PixelRegion {
  readonly column: number;
  readonly row: number;
  readonly width: number;
  readonly height: number;
}

/** Bits of `LinearPhoto.flags`. Clipped: code >= 250/255 of full scale (encoded), or >= 0.98 of full scale (linear). */
export const redClipped = 1;
export const greenClipped = 2;
export const blueClipped = 4;
/** A channel <= 1/255 of full scale while another is > 40/255: the light lies outside the file's colour space. */
export const outsideGamut = 8;

/** How far the relation of code values to light can be trusted. */
export type ResponseTrust = 'linear' | 'stated' | 'unknown';

/** A region of the upright photo in linear light. */
export interface LinearPhoto {
  readonly region: PixelRegion;
  /** Upright size of the whole photo. */
  readonly widthPx: number;
  readonly heightPx: number;
  /** region.width * region.height * 3, interleaved, linear sRGB primaries, D65, 1 = full scale; may lie outside 0..1. */
  readonly rgb: Float32Array;
  /** region.width * region.height; see the bits above. */
  readonly flags: Uint8Array;
  readonly colourSpace: string;
  readonly colourSpaceAssumed: boolean;
  readonly response: ResponseTrust;
}
