import type { Corners } from '../base/points';
import { homographyFromCorners } from './homography';

/** Diagonal of the 36 x 24 mm frame that 35-mm-equivalent focal lengths refer to. */
const frameDiagonalMm = Math.hypot(36, 24);
/** What most phones have as their main lens; taken when the file does not say. */
export const assumedFocalLength35Mm = 28;

type Direction = readonly [number, number, number];

/**
 * Directions in space of the window's width and height vectors, up to one common scale: the columns of K^-1 H for
 * the unit square, K = pinhole camera with the focal length and its axis through the middle of the photo.
 */
function sidesInSpace(
  corners: Corners,
  photoWidthPx: number,
  photoHeightPx: number,
  focalLength35Mm: number | null,
): { across: Direction; down: Direction } {
  const focalPx =
    ((focalLength35Mm ?? assumedFocalLength35Mm) / frameDiagonalMm) * Math.hypot(photoWidthPx, photoHeightPx);
  const m = homographyFromCorners(corners, 1, 1).toPhoto;
  const column = (i: number): Direction => [
    (m[i] - (photoWidthPx / 2) * m[6 + i]) / focalPx,
    (m[3 + i] - (photoHeightPx / 2) * m[6 + i]) / focalPx,
    m[6 + i],
  ];
  return { across: column(0), down: column(1) };
}

/**
 * How far the camera's axis is turned from the window's normal, degrees 0..90.
 *
 * normal = across x down (see `sidesInSpace`); tilt = atan2(|normal's part across the axis|, |part along it|).
 * The window's size cancels, so it need not be known. The photo must not be cropped, else its middle is not the axis.
 *
 * @param focalLength35Mm  35-mm-equivalent focal length, mm; null takes 28 mm
 * @source Hartley & Zisserman, Multiple View Geometry, 2nd ed. 2004, chapter 8 (pose of a plane; from memory)
 * @rule WN7
 */
export function tiltDeg(
  corners: Corners,
  photoWidthPx: number,
  photoHeightPx: number,
  focalLength35Mm: number | null,
): number {
  const { across: a, down: d } = sidesInSpace(corners, photoWidthPx, photoHeightPx, focalLength35Mm);
  const normal: Direction = [a[1] * d[2] - a[2] * d[1], a[2] * d[0] - a[0] * d[2], a[0] * d[1] - a[1] * d[0]];
  return (Math.atan2(Math.hypot(normal[0], normal[1]), Math.abs(normal[2])) * 180) / Math.PI;
}

/**
 * Width over height of the window as it is, with the perspective taken out: |across| / |down|.
 *
 * Depends on the focal length when the photo is tilted; at 28 mm taken for 50 mm a 35-degree tilt may move it by some
 * per cent, so it serves to find a mistyped size, not to measure one.
 *
 * @param focalLength35Mm  35-mm-equivalent focal length, mm; null takes 28 mm
 * @source as for `tiltDeg`
 * @rule WN8
 */
export function aspectFromCorners(
  corners: Corners,
  photoWidthPx: number,
  photoHeightPx: number,
  focalLength35Mm: number | null,
): number {
  const { across, down } = sidesInSpace(corners, photoWidthPx, photoHeightPx, focalLength35Mm);
  return Math.hypot(...across) / Math.hypot(...down);
}
