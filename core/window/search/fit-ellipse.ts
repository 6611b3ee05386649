import type { PhotoPoint } from '../../base/points';
import { edgeAt, type OutlinePlace, type SearchPass } from './edge-search';
import { distanceOf } from './hull';
import { biweight, medianSize } from './robust-line';

/** All points p with (p - centre)' A (p - centre) = 1, A = [[a, b], [b, c]], px^-2. */
export interface Ellipse {
  readonly centre: PhotoPoint;
  readonly a: number;
  readonly b: number;
  readonly c: number;
}

const rounds = 6;
const leastDeviationPx = 0.3;
const placesAround = 96;
/** Edges weaker than that share of the usual one belong to what lies about a covered part. */
const usualDropShare = 0.3;

/** Gauss elimination with row pivoting of five equations; null when singular. */
function solveFive(matrix: number[][]): number[] | null {
  const n = matrix.length;
  for (let column = 0; column < n; column++) {
    let pivot = column;
    for (let r = column + 1; r < n; r++) {
      if (Math.abs(matrix[r][column]) > Math.abs(matrix[pivot][column])) pivot = r;
    }
    if (!(Math.abs(matrix[pivot][column]) > 1e-12)) return null;
    [matrix[column], matrix[pivot]] = [matrix[pivot], matrix[column]];
    for (let r = 0; r < n; r++) {
      if (r === column) continue;
      const factor = matrix[r][column] / matrix[column][column];
      for (let k = column; k <= n; k++) matrix[r][k] -= factor * matrix[column][k];
    }
  }
  return matrix.map((row, i) => row[n] / row[i]);
}

/** The ellipse from p x^2 + q xy + r y^2 + s x + t y = 1 in normalised places; null when it is none. */
function ellipseOf([p, q, r, s, t]: number[], middle: PhotoPoint, scale: number): Ellipse | null {
  const determinant = 4 * p * r - q * q;
  if (!(determinant > 0) || !(p > 0)) return null;
  const x = (q * t - 2 * r * s) / determinant;
  const y = (q * s - 2 * p * t) / determinant;
  const size = 1 + p * x * x + q * x * y + r * y * y;
  if (!(size > 0)) return null;
  const unit = 1 / (size * scale * scale);
  return {
    centre: { column: middle.column + x * scale, row: middle.row + y * scale },
    a: p * unit,
    b: (q / 2) * unit,
    c: r * unit,
  };
}

/** Weighted algebraic least squares; the places are first moved about their middle and scaled to about 1. */
function weightedEllipse(points: readonly PhotoPoint[], weights: Float64Array): Ellipse | null {
  const middle = {
    column: points.reduce((sum, point) => sum + point.column, 0) / points.length,
    row: points.reduce((sum, point) => sum + point.row, 0) / points.length,
  };
  const scale = points.reduce((sum, point) => sum + distanceOf(point, middle), 0) / points.length;
  const matrix = Array.from({ length: 5 }, () => [0, 0, 0, 0, 0, 0]);
  points.forEach(({ column, row }, i) => {
    const x = (column - middle.column) / scale;
    const y = (row - middle.row) / scale;
    const terms = [x * x, x * y, y * y, x, y, 1];
    for (let j = 0; j < 5; j++) for (let k = 0; k < 6; k++) matrix[j][k] += weights[i] * terms[j] * terms[k];
  });
  const solved = solveFive(matrix);
  return solved ? ellipseOf(solved, middle, scale) : null;
}

/**
 * The ellipse of least algebraic distance to all points alike.
 *
 * @param points  5 or more, px
 * @returns null when a parabola or hyperbola fits better, or the points do not tell
 * @source Bookstein 1979, Rosin 1993 (conic by linear least squares, constant term 1; both from memory)
 * @rule WN19
 */
export function ellipseThrough(points: readonly PhotoPoint[]): Ellipse | null {
  return weightedEllipse(points, new Float64Array(points.length).fill(1));
}

/**
 * How far a point lies outside the ellipse along its normal, px, negative inside; to first order in the distance.
 *
 * @source Sampson 1982 (from memory): (value^2 - 1) / |gradient|
 * @rule WN16
 */
export function distanceOutside({ centre, a, b, c }: Ellipse, { column, row }: PhotoPoint): number {
  const x = column - centre.column;
  const y = row - centre.row;
  const [gradientX, gradientY] = [a * x + b * y, b * x + c * y];
  const value = x * gradientX + y * gradientY;
  return (value - 1) / (2 * Math.max(1e-12, Math.hypot(gradientX, gradientY)));
}

/**
 * The ellipse through most of the points.
 *
 * Algebraic least squares, weights renewed 6 times, as in `robustLine`.
 *
 * @param points  at least 6, over more than half of the ellipse
 * @returns null when the points lie on no ellipse
 * @source Bookstein 1979 (conic by least squares), Huber 1981 (weights), both from memory
 * @rule WN16
 */
export function robustEllipse(points: readonly PhotoPoint[]): Ellipse | null {
  if (points.length < 6) return null;
  const weights = new Float64Array(points.length).fill(1);
  let ellipse = weightedEllipse(points, weights);
  for (let round = 0; round < rounds && ellipse; round++) {
    const fitted = ellipse;
    const residuals = points.map((point) => distanceOutside(fitted, point));
    const deviation = Math.max(leastDeviationPx, 1.4826 * medianSize(residuals));
    residuals.forEach((residual, i) => {
      weights[i] =
        round < rounds / 2 ? 1 / Math.max(Math.abs(residual), leastDeviationPx) : biweight(residual, deviation);
    });
    ellipse = weightedEllipse(points, weights);
  }
  return ellipse;
}

/** Shares of the outline that a cover may hide, tried in turn, each at places all around. */
const hiddenShares = [0, 0.2, 0.35, 0.5];
const hiddenStarts = 16;
/** A hull of cells fits an ellipse that well when it is one, as a share of its size. */
const goodFitShare = 0.006;
/** Worse than that it is no ellipse, whatever part is left out. */
const worstFitShare = 0.02;

/**
 * The ellipse through an outline of which a stretch may belong to something else: the edge of a cover, print.
 *
 * Nothing, a fifth, a third or half of the outline is left out, the stretch that leaves the best fit to the rest; the first
 * share that fits to 0.6 % of the size is taken, else the best of all.
 *
 * @param points  evenly along the outline, in order
 * @returns null when nothing fits
 * @source our own choice (trimmed least squares)
 * @rule WN16
 */
export function ellipseOfPart(points: readonly PhotoPoint[]): Ellipse | null {
  const n = points.length;
  let best: { ellipse: Ellipse; misfit: number } | null = null;
  for (const share of hiddenShares) {
    const kept = Math.round((1 - share) * n);
    const weights = new Float64Array(kept).fill(1);
    for (let k = 0; k < (share === 0 ? 1 : hiddenStarts); k++) {
      const first = Math.round((k * n) / hiddenStarts);
      const part = Array.from({ length: kept }, (_, i) => points[(first + i) % n]);
      const ellipse = weightedEllipse(part, weights);
      if (!ellipse) continue;
      const squares = part.reduce((sum, point) => sum + distanceOutside(ellipse, point) ** 2, 0);
      const misfit = Math.sqrt(squares / kept) / halfAxes(ellipse).shortPx / 2;
      if (!best || misfit < best.misfit) best = { ellipse, misfit };
    }
    if (best && best.misfit < goodFitShare) break;
  }
  return best && best.misfit < worstFitShare ? best.ellipse : null;
}

/** Directions about the unit circle, found without sines: places on a square's rim, drawn onto the circle. */
const directions: readonly (readonly [number, number])[] = Array.from({ length: placesAround }, (_, i) => {
  const side = Math.floor((4 * i) / placesAround);
  const along = ((4 * (i + 0.5)) / placesAround - side) * 2 - 1;
  const [x, y] = [
    [along, -1],
    [1, along],
    [-along, 1],
    [-1, -along],
  ][side];
  const length = Math.hypot(x, y);
  return [x / length, y / length] as const;
});

/** Half diameters: `across` has the given direction, `down` is conjugate to it (the tangent at its end has that direction). */
export function halfDiameters(
  { a, b, c }: Ellipse,
  directionX: number,
  directionY: number,
): { across: readonly [number, number]; down: readonly [number, number] } {
  const [byX, byY] = [a * directionX + b * directionY, b * directionX + c * directionY];
  const acrossScale = 1 / Math.sqrt(directionX * byX + directionY * byY);
  const [downX, downY] = [-byY, byX];
  const downScale = 1 / Math.sqrt(a * downX * downX + 2 * b * downX * downY + c * downY * downY);
  return {
    across: [directionX * acrossScale, directionY * acrossScale],
    down: [downX * downScale, downY * downScale],
  };
}

/** Places all around the ellipse, clockwise from the top-left, with the way out. */
export function ellipsePlaces(ellipse: Ellipse): OutlinePlace[] {
  const { across, down } = halfDiameters(ellipse, 1, 0);
  return directions.map(([u, v]) => {
    const x = u * across[0] + v * down[0];
    const y = u * across[1] + v * down[1];
    const [gradientX, gradientY] = [ellipse.a * x + ellipse.b * y, ellipse.b * x + ellipse.c * y];
    const length = Math.hypot(gradientX, gradientY);
    return {
      at: { column: ellipse.centre.column + x, row: ellipse.centre.row + y },
      outX: gradientX / length,
      outY: gradientY / length,
    };
  });
}

/**
 * An ellipse moved onto the strongest edges near it.
 *
 * @returns null when the edges lie on no ellipse
 * @source our own choice
 * @rule WN16
 */
export function fitEllipse(ellipse: Ellipse, pass: SearchPass): Ellipse | null {
  const places = ellipsePlaces(ellipse);
  const edges = places.map((place) => edgeAt(place, pass));
  const leastDrop = usualDropShare * medianSize(edges.flatMap((edge) => (edge ? [edge.drop] : [])));
  const points = places.flatMap(({ at, outX, outY }, i) => {
    const edge = edges[i];
    if (!edge || edge.drop < leastDrop) return [];
    return [{ column: at.column + edge.offsetPx * outX, row: at.row + edge.offsetPx * outY }];
  });
  return robustEllipse(points);
}

/** Longer and shorter half axis, px. */
export function halfAxes({ a, b, c }: Ellipse): { longPx: number; shortPx: number } {
  const middle = (a + c) / 2;
  const swing = Math.hypot((a - c) / 2, b);
  return { longPx: 1 / Math.sqrt(Math.max(middle - swing, 1e-12)), shortPx: 1 / Math.sqrt(middle + swing) };
}
