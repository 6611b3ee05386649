import type { CameraColour } from './colour-response';
import type { Pose } from './plane-view';

export type Response =
  | { readonly kind: 'linear' }
  | { readonly kind: 'srgb' }
  /** S curve on the encoded values, strength 0..1: c^2 (3 - 2c) times strength plus the rest as it was. */
  | { readonly kind: 'contrasty'; readonly strength: number };

/** Colour space of the code values. The wide ones have the primaries of P3 and the white of D65. */
export type ColourSpace = 'srgb' | 'wide';

export type FileKind =
  | { readonly kind: 'jpeg'; readonly quality: number; readonly fullColour?: boolean }
  | { readonly kind: 'png'; readonly bits: 8 | 16 }
  | { readonly kind: 'tiff'; readonly bits: 8 | 16 };

/** One camera and how it was set. Every number is invented. */
export interface Camera {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly focalLength35Mm: number;
  readonly pose: Pose;
  readonly exposureS: number;
  readonly fNumber: number;
  readonly iso: number;
  readonly colour: CameraColour;
  readonly response: Response;
  readonly colourSpace: ColourSpace;
  /** Whether the file says its colour space in a profile. */
  readonly profile: boolean;
  /** Blur of lens and focus, Gaussian sigma in pixels. */
  readonly blurPx: number;
  /** Share of the light that the lens spreads over several millimetres. */
  readonly veil: number;
  /** Light falls off as cos^n of the angle from the camera's axis: 4 by geometry alone, less when partly corrected; left out: 0. */
  readonly shading?: number;
  /** Electrons of a full pixel at ISO 100 and read noise in electrons; null for a noiseless photo. */
  readonly noise: { readonly fullWell: number; readonly readNoise: number } | null;
  readonly seed: number;
  /** EXIF orientation: 1 upright, 6 stored with the camera turned. */
  readonly orientation: 1 | 6;
  readonly file: FileKind;
  /** Local time as EXIF writes it. */
  readonly takenAt: string;
}

/** Linear code value 1 of a unit of light at 1 s, f/1, ISO 100. */
export const cameraConstant = 3000;

/** Factor from light to linear code values. */
export function exposureFactor(camera: Camera): number {
  return (cameraConstant * camera.exposureS * camera.iso) / 100 / (camera.fNumber * camera.fNumber);
}
