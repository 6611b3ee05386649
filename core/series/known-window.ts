import type { LinearPhoto } from '../base/linear-photo';
import type { Corners } from '../base/points';
import type { LocatedWindow } from '../contract/measure';
import type { CarriedPrint } from '../reading/carried-print';
import { carryCorners, type WindowPrint } from '../registration/carry-corners';
import { registrationImageOf } from '../registration/registration-image';
import { homographyFromCorners } from '../window/homography';

interface PhotoSize {
  readonly widthPx: number;
  readonly heightPx: number;
}

/** What later photos of a series take over from the photo that showed a window first. */
export interface KnownWindow extends WindowPrint {
  readonly corners: Corners;
  readonly photo: PhotoSize;
  /** null: later photos find their own. */
  readonly print: CarriedPrint | null;
}

/** Remembers a window that has been read. @param linear holds the window @rule SE5 */
export function knownWindowOf(
  window: LocatedWindow,
  size: { readonly widthMm: number; readonly heightMm: number },
  linear: LinearPhoto,
  polarity: 'dark' | 'light',
  print: CarriedPrint | null,
): KnownWindow {
  const { widthMm, heightMm } = size;
  const { corners } = window;
  const homography = homographyFromCorners(corners, widthMm, heightMm);
  const described = { widthMm, heightMm, shape: window.spec.shape, kind: polarity };
  const image = registrationImageOf(linear, { ...described, homography });
  const { widthPx, heightPx } = linear;
  return { ...described, image, corners, photo: { widthPx, heightPx }, print };
}

/** The known corners as a photo of another size would have them, had the camera stood still; null when it was turned. */
export function asInPhotoOf(
  known: Pick<KnownWindow, 'corners' | 'photo'>,
  { widthPx, heightPx }: PhotoSize,
): Corners | null {
  const scale = widthPx / known.photo.widthPx;
  if (Math.abs(heightPx / known.photo.heightPx / scale - 1) > 0.01) return null;
  return known.corners.map(({ column, row }) => ({ column: column * scale, row: row * scale })) as unknown as Corners;
}

/** Places to look for a window in a photo, the likeliest first; a search is made only when the others fail. */
export interface Places {
  readonly given: readonly Corners[];
  readonly searched: () => readonly Corners[];
}

function* startsOf(known: KnownWindow, photo: PhotoSize, { given, searched }: Places): Generator<Corners> {
  yield* given;
  const same = asInPhotoOf(known, photo);
  if (same) yield same;
  yield* searched();
}

/**
 * A window's corners in another photo: where somebody set them, where the camera would see it had it not moved, or what a
 * search found, whichever its print confirms first.
 *
 * @param photo the whole photo, or the part that holds the given corners
 * @returns null when the print is at none of them
 * @rule SE5
 */
export function cornersByPrint(known: KnownWindow, photo: LinearPhoto, places: Places): Corners | null {
  return carryCorners(known, photo, startsOf(known, photo, places));
}
