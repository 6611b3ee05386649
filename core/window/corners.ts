import { AppError } from '../base/errors';
import type { Corners, PhotoPoint } from '../base/points';

/** Corners may lie this far outside the photo: a hand-set corner on the very edge. */
const outsideAllowancePx = 2;
/** Below this the window has no pixels worth reading. */
const leastSidePx = 4;
const leastAngleDeg = 40;
/** Near 180 deg three corners lie on a line, and no plane can be fitted. */
const largestAngleDeg = 170;
const cornerNames = ['top-left', 'top-right', 'bottom-right', 'bottom-left'] as const;
const orderRemedy = 'Give the corners as top-left, top-right, bottom-right, bottom-left of the window as one reads it.';

function outlineError(code: string, message: string, remedy: string): AppError {
  return new AppError('outline', code, message, remedy);
}

/** Cross product of (b - a) and (c - a): positive when a, b, c turn clockwise on the screen (rows grow downwards). */
function turn(a: PhotoPoint, b: PhotoPoint, c: PhotoPoint): number {
  return (b.column - a.column) * (c.row - a.row) - (b.row - a.row) * (c.column - a.column);
}

/** Length of a side in pixels. */
function distance(a: PhotoPoint, b: PhotoPoint): number {
  return Math.hypot(b.column - a.column, b.row - a.row);
}

/** Whether the segments a-b and c-d cross. */
function segmentsCross(a: PhotoPoint, b: PhotoPoint, c: PhotoPoint, d: PhotoPoint): boolean {
  return turn(a, b, c) * turn(a, b, d) < 0 && turn(c, d, a) * turn(c, d, b) < 0;
}

/** Inner angle at each corner, degrees 0..360; above 180 where the corner points inwards. For clockwise corners. */
function innerAnglesDeg(corners: Corners): number[] {
  return corners.map((corner, i) => {
    const next = corners[(i + 1) % 4];
    const before = corners[(i + 3) % 4];
    const dot =
      (next.column - corner.column) * (before.column - corner.column) +
      (next.row - corner.row) * (before.row - corner.row);
    const angle = (Math.atan2(turn(corner, next, before), dot) * 180) / Math.PI;
    return angle < 0 ? angle + 360 : angle;
  });
}

function checkInsidePhoto(corners: Corners, photoWidthPx: number, photoHeightPx: number): void {
  corners.forEach(({ column, row }, i) => {
    const far = Math.max(-column, column - photoWidthPx, -row, row - photoHeightPx);
    if (far <= outsideAllowancePx) return;
    throw outlineError(
      'CORNERS_OUTSIDE',
      `The ${cornerNames[i]} corner (${column}, ${row}) lies outside the photo of ${photoWidthPx} x ${photoHeightPx} pixels.`,
      'Set the corners on the photo. They are counted in pixels of the upright picture, after its rotation is applied.',
    );
  });
}

function checkSides(corners: Corners): void {
  for (let i = 0; i < 4; i++) {
    for (let j = i + 1; j < 4; j++) {
      const sidePx = distance(corners[i], corners[j]);
      if (sidePx >= leastSidePx) continue;
      throw outlineError(
        'CORNERS_TOO_SMALL',
        `The ${cornerNames[i]} and ${cornerNames[j]} corners lie only ${sidePx.toFixed(1)} pixels apart.`,
        'Set each corner on its own corner of the window.',
      );
    }
  }
}

function checkOrder(corners: Corners): void {
  const [a, b, c, d] = corners;
  if (segmentsCross(a, b, c, d) || segmentsCross(b, c, d, a)) {
    throw outlineError('CORNERS_CROSSING', 'The sides between the corners cross each other.', orderRemedy);
  }
  const areaPx = (turn(a, b, c) + turn(a, c, d)) / 2;
  if (areaPx < 0) {
    throw outlineError(
      'CORNERS_MIRRORED',
      'The corners run anticlockwise, so the window would be read as in a mirror.',
      orderRemedy,
    );
  }
}

function checkAngles(corners: Corners): void {
  const anglesDeg = innerAnglesDeg(corners);
  const inwards = anglesDeg.findIndex((angleDeg) => angleDeg > largestAngleDeg);
  if (inwards >= 0) {
    throw outlineError(
      'CORNERS_NOT_CONVEX',
      `The ${cornerNames[inwards]} corner does not stick out: its angle is ${anglesDeg[inwards].toFixed(0)} degrees.`,
      'Set the corners again: each must be an outer corner of the window.',
    );
  }
  const sharp = anglesDeg.findIndex((angleDeg) => angleDeg < leastAngleDeg);
  if (sharp >= 0) {
    throw outlineError(
      'CORNERS_TOO_SHARP',
      `The ${cornerNames[sharp]} corner has an angle of ${anglesDeg[sharp].toFixed(1)} degrees; at least ${leastAngleDeg} are needed.`,
      'Stand straighter in front of the window, or set the corners again.',
    );
  }
}

/**
 * Stops at corners that cannot be those of a window seen through a camera.
 *
 * In this order: outside the photo by more than 2 px, two corners within 4 px, crossing sides, anticlockwise order,
 * an angle above 170 or below 40 degrees.
 *
 * @throws AppError of kind 'outline': CORNERS_OUTSIDE, CORNERS_TOO_SMALL, CORNERS_CROSSING, CORNERS_MIRRORED,
 *         CORNERS_TOO_SHARP, CORNERS_NOT_CONVEX
 * @source our own choice; 40 degrees is far beyond the tilt at which a photo is refused
 * @rule WN4
 */
export function checkCorners(corners: Corners, photoWidthPx: number, photoHeightPx: number): void {
  if (corners.some(({ column, row }) => !Number.isFinite(column) || !Number.isFinite(row))) {
    throw new RangeError('corners must be finite numbers');
  }
  checkInsidePhoto(corners, photoWidthPx, photoHeightPx);
  checkSides(corners);
  checkOrder(corners);
  checkAngles(corners);
}

/**
 * The size that stands in when nobody measured the window: 60 mm wide, height from the corners' mean side ratio.
 *
 * heightMm = 60 (left + right) / (top + bottom), lengths in photo pixels. Off by the perspective when the photo is
 * tilted; mm figures are then relative.
 *
 * @source our own choice: the length of a common scale
 * @rule WN5
 */
export function assumedSize([topLeft, topRight, bottomRight, bottomLeft]: Corners): {
  widthMm: number;
  heightMm: number;
} {
  const across = distance(topLeft, topRight) + distance(bottomLeft, bottomRight);
  const down = distance(topLeft, bottomLeft) + distance(topRight, bottomRight);
  return { widthMm: 60, heightMm: (60 * down) / across };
}

/**
 * How much of the frame the window takes, 0..1: the longer side of the corners' upright bounding box over the longer
 * side of the photo. In a landscape photo of a wide window this is window width over frame width. The longer side of
 * both is taken so that a photo on end is judged by the same distance from the lens axis, where corners darken.
 *
 * @source our own choice (lens corner loss grows with the distance from the axis)
 * @rule WN6
 */
export function viewShare(corners: Corners, photoWidthPx: number, photoHeightPx: number): number {
  const columns = corners.map(({ column }) => column);
  const rows = corners.map(({ row }) => row);
  const longerPx = Math.max(Math.max(...columns) - Math.min(...columns), Math.max(...rows) - Math.min(...rows));
  return longerPx / Math.max(photoWidthPx, photoHeightPx);
}
