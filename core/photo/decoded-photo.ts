import type { PixelRegion } from '../base/linear-photo';
import type { CameraFacts } from '../contract/readings';
import type { ToneMappingHint } from './tone-mapping';

export type { PixelRegion };

/** What the file says about itself, before any pixel is turned into light. */
export interface PhotoFacts {
  readonly sha256: string;
  /** Upright size, after the EXIF orientation. */
  readonly widthPx: number;
  readonly heightPx: number;
  /** Bits a channel in the file: 1, 2, 4, 8, 10, 12 or 16. */
  readonly bitDepth: number;
  /** By content, never by the file's name: jpeg png tiff webp avif heic. */
  readonly format: string;
  readonly camera: CameraFacts;
  /** 35-mm-equivalent focal length in mm, when EXIF has it. */
  readonly focalLength35Mm?: number;
  /** EXIF's contrast, saturation, sharpness, rendering and scene, where the file tells any: they go with the tone curve. */
  readonly pictureStyle?: string;
  /** EXIF ColorSpace says sRGB. */
  readonly exifSaysSrgb: boolean;
  /** Signs of local tone mapping in the file's notes; empty when nothing is said. */
  readonly toneMappingHints: readonly ToneMappingHint[];
}

/**
 * A decoded photo, or a region of it, upright. Code values exactly as the file holds them (8 or 16 bits),
 * three interleaved channels (grey is repeated), transparency dropped. `linear` is filled by the decoder only where
 * a profile cannot be followed by a matrix and curves (CMYK, look-up-table profiles): then it rules over `codes`.
 */
export interface DecodedPhoto {
  readonly facts: PhotoFacts;
  readonly region: PixelRegion;
  /** region.width * region.height * 3 codes, full scale 255 or 65535; null for CMYK. */
  readonly codes: Uint8Array | Uint16Array | null;
  /** Linear sRGB primaries, D65, 1 = full scale, not clipped; same layout. */
  readonly linear: Float32Array | null;
  /** The embedded ICC profile, when the file has one. */
  readonly icc: Uint8Array | null;
  /** For `linear`: the profile's description. */
  readonly profileName: string | null;
  readonly decodeMs: number;
}
