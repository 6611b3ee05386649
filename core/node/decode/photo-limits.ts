/** What a photo may cost. */
export interface PhotoLimits {
  readonly fileBytes: number;
  /** Pixels of the whole photo; a 16-bit photo counts double. */
  readonly pixels: number;
  readonly timeMs: number;
  /** Resident memory of the decoding process. */
  readonly memoryBytes: number;
}

/** Room for the largest cameras (about 150 megapixels at 8 bits, 100 at 16), and an end to what only claims to be large. */
export const defaultPhotoLimits: PhotoLimits = {
  fileBytes: 256 * 2 ** 20,
  pixels: 220e6,
  timeMs: 60_000,
  memoryBytes: 3 * 2 ** 30,
};
