/** What a photo may cost. */
export interface PhotoLimits {
  readonly fileBytes: number;
  /** Pixels of the whole photo; a 16-bit photo counts double. */
  readonly pixels: number;
  /** Beyond so many pixels, counted alike, the file must be large enough to be a photo. */
  readonly pixelsOnTrust: number;
  readonly timeMs: number;
  /** Resident memory of the decoding process. */
  readonly memoryBytes: number;
}

/** Room for the largest cameras (about 150 megapixels at 8 bits, 100 at 16), and an end to what only claims to be large. */
export const defaultPhotoLimits: PhotoLimits = {
  fileBytes: 256 * 2 ** 20,
  pixels: 220e6,
  pixelsOnTrust: 60e6,
  timeMs: 60_000,
  memoryBytes: 3 * 2 ** 30,
};

/**
 * A large photo may not claim more pixels than this for each byte of its file. Files of one colour, which no camera makes,
 * have 128 (PNG of 16 bits), 171 (JPEG), 340 (PNG, TIFF) and 380 (WebP); a JPEG of quality 75 with grain of 2 codes 98.
 *
 * @source our own choice, between those figures
 */
export const mostPixelsAByte = 120;
