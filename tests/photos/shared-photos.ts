import { existsSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

/** Real photos stand beside the project, not in it: some may not be passed on. */
export const photosFolder = fileURLToPath(new URL('../../../shared/photos', import.meta.url));
export const photosAbsent = !existsSync(path.join(photosFolder, 'manifest.json'));
/** For titles: a group that is skipped says why. */
export const whySkipped = photosAbsent ? ' (skipped: the folder ../shared/photos is not there)' : '';

export interface KnownPoint {
  readonly name: string;
  readonly x: number;
  readonly y: number;
  /** One number where the file holds one channel of codes that are not sRGB. */
  readonly code_0_255: readonly number[] | number;
  readonly linear_srgb_unclipped?: readonly number[];
  readonly Y?: number;
  readonly Y_mean_5x5?: number;
}

/** As text and number where the two differ; null: the other program found none. */
export type Noted = { readonly number: number } | number | null | undefined;

/** A lit window, marked by eye. */
export interface MarkedWindow {
  readonly label: string;
  readonly corners_TL_TR_BR_BL: readonly (readonly [number, number])[];
  readonly measured_for_orientation: {
    /** Mean luminance of 5 x 3 cells over the brightest of them, row by row, print included. */
    readonly grid5x3_Y_relative: readonly (readonly number[])[];
    readonly share_of_pixels_with_a_channel_at_or_above_254: number;
  };
}

export interface KnownPhoto {
  readonly file: string;
  readonly kind: string;
  readonly sha256: string;
  readonly lit_windows?: readonly MarkedWindow[];
  readonly expected:
    | string
    | {
        readonly by_exiftool_12_57: {
          readonly file_type_by_content?: string;
          readonly make?: string | null;
          readonly model?: string | null;
          readonly exposure_time?: Noted;
          readonly f_number?: Noted;
          readonly iso?: Noted;
          readonly focal_length?: Noted;
          readonly white_balance?: Noted;
          readonly exif_color_space?: Noted;
          readonly date_time_original?: string | null;
          readonly icc_profile_name?: string | null;
        };
        readonly size_after_orientation: readonly [number, number];
        readonly pixels: { readonly points: readonly KnownPoint[] };
      };
}

/** Facts about every photo that other programs found. Empty where the folder is absent. */
export const knownPhotos: readonly KnownPhoto[] = photosAbsent
  ? []
  : (JSON.parse(readFileSync(path.join(photosFolder, 'manifest.json'), 'utf8')) as { files: KnownPhoto[] }).files;

export type ReadablePhoto = KnownPhoto & { readonly expected: Exclude<KnownPhoto['expected'], string> };

/** Kinds that Evendial refuses: JPEG XL, and JPEG of 12 bits. */
const refusedFiles = ['colour/12-bit.jpg', 'colour/jxl_bike.jxl'];

export const goodPhotos = knownPhotos.filter(
  (photo): photo is ReadablePhoto =>
    photo.kind !== 'bad' && !refusedFiles.includes(photo.file) && typeof photo.expected !== 'string',
);
export const refusedPhotos = knownPhotos.filter((photo) => refusedFiles.includes(photo.file));
export const badPhotos = knownPhotos.filter((photo) => photo.kind === 'bad');

export function placeOf(photo: { readonly file: string }): string {
  return path.join(photosFolder, photo.file);
}
