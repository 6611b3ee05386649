import { createMask, type Mask } from '../base/plane';
import type { LinearPhoto } from '../base/linear-photo';
import { outlineMask } from '../window/outline';
import { photoPointOf } from '../window/homography';
import { rectifyWindow } from '../window/rectify';
import type { RectifiedWindow } from '../window/rectified';
import { luminancePlane } from './luminance-plane';
import type { WindowPlace } from './photo-in-light';
import { matchStructure } from './structure-match';

/** Cells a mm at which the print of two photos is compared. */
const pxPerMm = 5;
/** The rim moves with every millimetre of parallax, and glares: it is not compared. */
const rimMm = 0.5;
/** Further apart, print and ground are no longer the same places. @source our own choice */
const largestShiftMm = 0.3;
/** A photo that correlates less shows something else. Noise of a dark exposure and another part of the curve cost some. */
const leastCorrelation = 0.7;
/** Light of codes under about 10 of 255 is noise. */
const leastLight = 0.003;
/** Where less is neither dark nor clipped in both photos, nothing can be compared. */
const leastCells = 400;

/** Cells inside the outline that both photos have a code of. */
function comparedCells(a: RectifiedWindow, b: RectifiedWindow, { shape, widthMm, heightMm }: WindowPlace): Mask {
  const inside = outlineMask(shape, widthMm, heightMm, pxPerMm, rimMm, 'whole');
  const [ofA, ofB] = [luminancePlane(a), luminancePlane(b)];
  const cells = createMask(inside.width, inside.height);
  cells.values.forEach((_, i) => {
    const isClipped = [a, b].some(({ greenClipped }) => greenClipped.values[i]);
    cells.values[i] =
      inside.values[i] && !isClipped && ofA.values[i] > leastLight && ofB.values[i] > leastLight ? 1 : 0;
  });
  return cells;
}

/**
 * How far the window lies aside in another photo of the same series, in whole photo pixels.
 *
 * @param first,second in light by the same curve, whichever; not altered
 * @returns pixels to be added to a place of the first; 0, 0 where nothing is printed or the photos share too few cells; a clause
 *   when it moved by more than 0.3 mm or does not show the same
 * @source our own choice
 * @rule BR8
 */
export function bracketShift(
  first: LinearPhoto,
  second: LinearPhoto,
  place: WindowPlace,
): { readonly columns: number; readonly rows: number } | string {
  const { homography, widthMm, heightMm } = place;
  const straight = (photo: LinearPhoto): RectifiedWindow =>
    rectifyWindow(photo, homography, widthMm, heightMm, pxPerMm);
  const [a, b] = [straight(first), straight(second)];
  const cells = comparedCells(a, b, place);
  const none = { columns: 0, rows: 0 };
  if (cells.values.reduce((sum, value) => sum + value, 0) < leastCells) return none;
  const match = matchStructure(luminancePlane(a), luminancePlane(b), cells, pxPerMm);
  if (!match) return none;
  const { correlation, shiftMm } = match;
  if (!(correlation >= leastCorrelation)) {
    return `its photos do not show the same print (correlation ${correlation.toFixed(2)}, 0.70 is needed)`;
  }
  const shift = Math.hypot(shiftMm.xMm, shiftMm.yMm);
  if (shift > largestShiftMm) return `the camera moved by ${shift.toFixed(1)} mm between its photos`;
  const [xMm, yMm] = [widthMm / 2, heightMm / 2];
  const from = photoPointOf(homography, { xMm, yMm });
  const to = photoPointOf(homography, { xMm: xMm + shiftMm.xMm, yMm: yMm + shiftMm.yMm });
  return { columns: Math.round(to.column - from.column), rows: Math.round(to.row - from.row) };
}
