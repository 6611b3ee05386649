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
export type ResponseTrust = 'linear' | 'stated' | 'recovered' | 'unknown';

/** A region of the upright photo in linear light. */
export interface LinearPhoto {
  readonly region: PixelRegion;
  /** Upright size of the whole photo. */
  readonly widthPx: number;
  readonly heightPx: number;
  /** 3 values a pixel of the region (of blocks of them, see `reducedBy`), interleaved, linear sRGB primaries, D65, 1 = full scale; may lie outside 0..1. */
  readonly rgb: Float32Array;
  /** Photo pixels along one side of a pixel of `rgb`; left out: 1. The region is a whole multiple of it. */
  readonly reducedBy?: number;
  /** One a pixel of `rgb`; see the bits above. */
  readonly flags: Uint8Array;
  readonly colourSpace: string;
  readonly colourSpaceAssumed: boolean;
  readonly response: ResponseTrust;
}
