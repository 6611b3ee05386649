import { AppError } from '../base/errors';
import type { Corners, PhotoPoint } from '../base/points';
import { distanceOutside, type Ellipse, ellipseThrough, halfAxes, halfDiameters } from './search/fit-ellipse';

/** A conic has five numbers. */
export const leastRimPoints = 5;
/** Two marks nearer than that are one mark set twice, px. */
const leastApartPx = 1;
/** Marks whose spread across is less than that of their spread along lie on a line: no face is seen so flat. */
const leastSpreadRatio = 0.02;
/** A mark may lie so far from the fit, px and as a share of the mean half axis: 1 % of the face's width. */
const leastOffPx = 3;
const offShare = 0.02;
/**
 * At least that share of the rim between the outermost marks, as the face sees it. Marks good to 0.5 % of the half axis
 * (1 px of 200) then place 95 of 100 corners within 5 % of the width; over 0.4 of the rim within 14 %, over 0.6 within 2 %.
 */
const leastRimShare = 0.5;

const remedy = 'Set 5 or more points on the rim of the lit face, spread over as much of it as can be seen.';

function rimError(code: string, message: string, what = remedy): AppError {
  return new AppError('usage', code, message, what);
}

/** A point as people count them, with where it lies. */
function pointText(points: readonly PhotoPoint[], i: number): string {
  return `point ${i + 1} (${points[i].column}, ${points[i].row})`;
}

function checkApart(points: readonly PhotoPoint[]): void {
  points.forEach((point, i) => {
    const same = points.findIndex(
      (one, k) => k < i && Math.hypot(one.column - point.column, one.row - point.row) < leastApartPx,
    );
    if (same >= 0) {
      throw rimError('RIM_POINT_REPEATED', `Rim ${pointText(points, i)} lies on point ${same + 1}.`);
    }
  });
}

/** Standard deviations along and across the points' own long direction, from the eigenvalues of their scatter. */
function isOnLine(points: readonly PhotoPoint[]): boolean {
  const meanColumn = points.reduce((sum, { column }) => sum + column, 0) / points.length;
  const meanRow = points.reduce((sum, { row }) => sum + row, 0) / points.length;
  let [xx, xy, yy] = [0, 0, 0];
  for (const { column, row } of points) {
    xx += (column - meanColumn) ** 2;
    xy += (column - meanColumn) * (row - meanRow);
    yy += (row - meanRow) ** 2;
  }
  const swing = Math.hypot((xx - yy) / 2, xy);
  const across = Math.max(0, (xx + yy) / 2 - swing);
  return Math.sqrt(across) < leastSpreadRatio * Math.sqrt((xx + yy) / 2 + swing);
}

function sizeOf(ellipse: Ellipse): number {
  const { longPx, shortPx } = halfAxes(ellipse);
  return (longPx + shortPx) / 2;
}

/** The point farthest from the fit, and whether it is too far. */
function farthest(
  ellipse: Ellipse,
  points: readonly PhotoPoint[],
): { index: number; offPx: number; isTooFar: boolean } {
  const off = points.map((point) => Math.abs(distanceOutside(ellipse, point)));
  const offPx = Math.max(...off);
  return { index: off.indexOf(offPx), offPx, isTooFar: offPx > Math.max(leastOffPx, offShare * sizeOf(ellipse)) };
}

/**
 * The one point without which all others lie on an ellipse; null when there is none such, or more than one.
 *
 * A far point drags the fit along, so the largest residual may be another's. Of six points any five lie on a conic: none can
 * be told.
 */
function oddPoint(points: readonly PhotoPoint[]): number | null {
  if (points.length < leastRimPoints + 2) return null;
  const odd = points.flatMap((_, i) => {
    const others = points.filter((_other, k) => k !== i);
    const ellipse = ellipseThrough(others);
    return ellipse && !farthest(ellipse, others).isTooFar ? [i] : [];
  });
  return odd.length === 1 ? odd[0] : null;
}

/** Largest share of the rim between two neighbouring points, 0..1, angles taken where the ellipse is a circle. */
function largestGap(ellipse: Ellipse, points: readonly PhotoPoint[]): number {
  const { across, down } = halfDiameters(ellipse, 1, 0);
  const size = across[0] * down[1] - across[1] * down[0];
  const turns = points
    .map(({ column, row }) => {
      const [x, y] = [column - ellipse.centre.column, row - ellipse.centre.row];
      return Math.atan2((y * across[0] - x * across[1]) / size, (x * down[1] - y * down[0]) / size) / (2 * Math.PI);
    })
    .sort((a, b) => a - b);
  return Math.max(...turns.map((turn, i) => (i > 0 ? turn - turns[i - 1] : turn + 1 - turns[turns.length - 1])));
}

/**
 * The ellipse through points set on the rim of a round face.
 *
 * @param points  5 or more, photo pixels, in any order
 * @throws AppError of kind 'usage': RIM_TOO_FEW, RIM_POINT_REPEATED, RIM_ON_LINE, RIM_NO_ELLIPSE (a hyperbola or parabola fits
 *   better), RIM_POINT_OFF (the worst point by number), RIM_TOO_SHORT (less than half of the rim)
 * @source Bookstein 1979, Rosin 1993 (conic by linear least squares, both from memory); limits our own choice
 * @rule WN19
 */
export function ellipseOfRim(points: readonly PhotoPoint[]): Ellipse {
  if (points.length < leastRimPoints) {
    throw rimError('RIM_TOO_FEW', `The rim has ${points.length} points; an ellipse needs ${leastRimPoints}.`);
  }
  checkApart(points);
  if (isOnLine(points)) throw rimError('RIM_ON_LINE', 'The points of the rim lie on a straight line.');
  const ellipse = ellipseThrough(points);
  const worst = ellipse && farthest(ellipse, points);
  if (!ellipse || worst?.isTooFar) {
    const index = oddPoint(points) ?? (worst ? worst.index : null);
    if (index !== null) {
      const off = worst?.index === index ? ` by ${worst.offPx.toFixed(1)} pixels` : '';
      throw rimError(
        'RIM_POINT_OFF',
        `Rim ${pointText(points, index)} lies off the ellipse of the others${off}.`,
        'Set it again on the rim, or leave it out.',
      );
    }
    throw rimError(
      'RIM_NO_ELLIPSE',
      'No ellipse runs through the points of the rim: a curve that does not close fits them better.',
    );
  }
  const share = 1 - largestGap(ellipse, points);
  if (share < leastRimShare) {
    throw rimError(
      'RIM_TOO_SHORT',
      `The points cover ${Math.round(100 * share)} % of the rim; the rest of it would be a guess.`,
    );
  }
  return ellipse;
}

/**
 * Corners of the box about an ellipse, as a round face's window is given: top-left, top-right, bottom-right, bottom-left.
 *
 * A circle does not tell how it is turned, so the face is assumed to stand upright in the photo: its horizontal runs along
 * the photo's rows, and its vertical is the diameter conjugate to it (upright when the ellipse is, leaning when it leans).
 * Perspective within the face is left out. From ten face widths away corners are off by 0.5 % of the width at 10 degrees aside
 * or above, by 1.5 % at 30; at 20 degrees aside and 20 above at once the face seems turned, and they are off by 9 %.
 *
 * @source our own choice; conjugate diameters of an ellipse under an affine view
 * @rule WN19
 */
export function cornersOfEllipse(ellipse: Ellipse): Corners {
  const { centre } = ellipse;
  const { across, down } = halfDiameters(ellipse, 1, 0);
  const corner = (u: number, v: number): PhotoPoint => ({
    column: centre.column + u * across[0] + v * down[0],
    row: centre.row + u * across[1] + v * down[1],
  });
  return [corner(-1, -1), corner(1, -1), corner(1, 1), corner(-1, 1)];
}

/** Corners of the box about a round face whose rim was marked. @throws as `ellipseOfRim` @rule WN19 */
export function cornersOfRim(points: readonly PhotoPoint[]): Corners {
  return cornersOfEllipse(ellipseOfRim(points));
}
