import type { Corners, PhotoPoint, WindowPoint } from '../base/points';

/** A 3x3 projective matrix, row by row. */
export type ProjectiveMatrix = readonly [number, number, number, number, number, number, number, number, number];

/** The way between photo pixels and mm on the window, both directions. */
export interface Homography {
  readonly toWindow: ProjectiveMatrix;
  readonly toPhoto: ProjectiveMatrix;
}

type Pair = readonly [number, number];

const notInGeneralPosition = 'three of the four points lie on a line';

/** Applies a projective matrix to a point; not finite where the point lies on the horizon. */
function project(m: ProjectiveMatrix, x: number, y: number): Pair {
  const w = m[6] * x + m[7] * y + m[8];
  return [(m[0] * x + m[1] * y + m[2]) / w, (m[3] * x + m[4] * y + m[5]) / w];
}

/** Product a b: first b, then a. */
function multiply(a: ProjectiveMatrix, b: ProjectiveMatrix): ProjectiveMatrix {
  const cell = (row: number, column: number) =>
    a[3 * row] * b[column] + a[3 * row + 1] * b[column + 3] + a[3 * row + 2] * b[column + 6];
  return [cell(0, 0), cell(0, 1), cell(0, 2), cell(1, 0), cell(1, 1), cell(1, 2), cell(2, 0), cell(2, 1), cell(2, 2)];
}

/** The adjugate: the inverse up to scale, which is all that a projective matrix needs. */
function invert(m: ProjectiveMatrix): ProjectiveMatrix {
  const [a, b, c, d, e, f, g, h, i] = m;
  return [
    e * i - f * h,
    c * h - b * i,
    b * f - c * e,
    f * g - d * i,
    a * i - c * g,
    c * d - a * f,
    d * h - e * g,
    b * g - a * h,
    a * e - b * d,
  ];
}

function determinant([a, b, c, d, e, f, g, h, i]: ProjectiveMatrix): number {
  return a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g);
}

/** Moves the points' centre to the origin and their mean distance from it to sqrt 2. */
function normalisation(points: readonly Pair[]): ProjectiveMatrix {
  const centreX = points.reduce((sum, [x]) => sum + x, 0) / points.length;
  const centreY = points.reduce((sum, [, y]) => sum + y, 0) / points.length;
  const spread = points.reduce((sum, [x, y]) => sum + Math.hypot(x - centreX, y - centreY), 0) / points.length;
  const scale = Math.SQRT2 / spread;
  return [scale, 0, -scale * centreX, 0, scale, -scale * centreY, 0, 0, 1];
}

/** Solves a square linear system by elimination with row pivoting; throws when it is singular. */
function solve(matrix: number[][], right: number[]): number[] {
  const n = right.length;
  const rows = matrix.map((row, i) => [...row, right[i]]);
  for (let column = 0; column < n; column++) {
    let pivot = column;
    for (let r = column + 1; r < n; r++) {
      if (Math.abs(rows[r][column]) > Math.abs(rows[pivot][column])) pivot = r;
    }
    if (!(Math.abs(rows[pivot][column]) > 1e-12)) throw new RangeError(notInGeneralPosition);
    [rows[column], rows[pivot]] = [rows[pivot], rows[column]];
    for (let r = 0; r < n; r++) {
      if (r === column) continue;
      const factor = rows[r][column] / rows[column][column];
      for (let k = column; k <= n; k++) rows[r][k] -= factor * rows[column][k];
    }
  }
  return rows.map((row, i) => row[n] / row[i]);
}

/** The projective matrix that takes four points to four others, each set in general position. */
function matrixBetween(from: readonly Pair[], to: readonly Pair[]): ProjectiveMatrix {
  const normaliseFrom = normalisation(from);
  const normaliseTo = normalisation(to);
  const matrix: number[][] = [];
  const right: number[] = [];
  from.forEach(([fromX, fromY], i) => {
    const [x, y] = project(normaliseFrom, fromX, fromY);
    const [u, v] = project(normaliseTo, to[i][0], to[i][1]);
    matrix.push([x, y, 1, 0, 0, 0, -u * x, -u * y], [0, 0, 0, x, y, 1, -v * x, -v * y]);
    right.push(u, v);
  });
  // The last element may be set to 1: the centre of a convex quadrilateral never lies on its horizon.
  const [a, b, c, d, e, f, g, h] = solve(matrix, right);
  const normalised: ProjectiveMatrix = [a, b, c, d, e, f, g, h, 1];
  if (!(Math.abs(determinant(normalised)) > 1e-9)) throw new RangeError(notInGeneralPosition);
  return multiply(invert(normaliseTo), multiply(normalised, normaliseFrom));
}

/** Scales a matrix so that its last element is 1 where that is possible, for steady numbers. */
function scaled(m: ProjectiveMatrix): ProjectiveMatrix {
  const last = m[8];
  return last === 0 ? m : (m.map((value) => value / last) as unknown as ProjectiveMatrix);
}

/**
 * The projective relation of the photo to the window's plane: the corners become (0,0), (W,0), (W,H), (0,H) mm.
 *
 * Direct linear transformation on normalised points. Lens distortion is not modelled.
 *
 * @param corners  photo pixels, top-left, top-right, bottom-right, bottom-left as one reads the window
 * @param widthMm  above 0
 * @param heightMm above 0
 * @throws RangeError when three corners lie on a line: run `checkCorners` first
 * @source Hartley & Zisserman, Multiple View Geometry, 2nd ed. 2004, section 4.4 (from memory)
 * @rule WN1
 */
export function homographyFromCorners(corners: Corners, widthMm: number, heightMm: number): Homography {
  const inPhoto = corners.map(({ column, row }): Pair => [column, row]);
  const inWindow: Pair[] = [
    [0, 0],
    [widthMm, 0],
    [widthMm, heightMm],
    [0, heightMm],
  ];
  const toWindow = scaled(matrixBetween(inPhoto, inWindow));
  return { toWindow, toPhoto: scaled(invert(toWindow)) };
}

/** From mm on one window to mm on another of the same photo. @source as homographyFromCorners @rule WN1 */
export function betweenWindows(from: Homography, to: Homography): ProjectiveMatrix {
  return multiply(to.toWindow, from.toPhoto);
}

/** Where a photo point (px) lies on the window, mm; not finite on the horizon. @source as homographyFromCorners @rule WN1 */
export function windowPointOf(homography: Homography, { column, row }: PhotoPoint): WindowPoint {
  const [xMm, yMm] = project(homography.toWindow, column, row);
  return { xMm, yMm };
}

/** Where a point of the window (mm) lies in the photo, px. @source as homographyFromCorners @rule WN1 */
export function photoPointOf(homography: Homography, { xMm, yMm }: WindowPoint): PhotoPoint {
  const [column, row] = project(homography.toPhoto, xMm, yMm);
  return { column, row };
}

/**
 * How many photo pixels one mm spans along the window's x and y, at a place on the window.
 *
 * The lengths of the two columns of the derivative of the mm-to-photo relation.
 *
 * @source calculus; own calculation
 * @rule WN2
 */
export function localScale(homography: Homography, { xMm, yMm }: WindowPoint): { alongX: number; alongY: number } {
  const m = homography.toPhoto;
  const w = m[6] * xMm + m[7] * yMm + m[8];
  const [column, row] = project(m, xMm, yMm);
  return {
    alongX: Math.hypot(m[0] - m[6] * column, m[3] - m[6] * row) / Math.abs(w),
    alongY: Math.hypot(m[1] - m[7] * column, m[4] - m[7] * row) / Math.abs(w),
  };
}

/**
 * The photo's resolution on the window, px/mm: at the window's centre, the smaller of the scales along x and y.
 * A mean over the window would hide that a tilted window is poor along one axis.
 *
 * @source our own choice; the centre stands for the window up to the tilt at which a photo is refused
 * @rule WN2
 */
export function pxPerMmOf(homography: Homography, widthMm: number, heightMm: number): number {
  const { alongX, alongY } = localScale(homography, { xMm: widthMm / 2, yMm: heightMm / 2 });
  return Math.min(alongX, alongY);
}
