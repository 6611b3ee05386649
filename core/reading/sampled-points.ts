import type { GlowMap } from './glow-map';

/** One set of measuring points. */
export interface PointSet {
  /** Darkest over brightest; null when fewer than two thirds of the points have glow. */
  readonly minOverMax: number | null;
  /** Relative to the brightest, in the order of the points; null = too little glow there. */
  readonly values: readonly (number | null)[];
}

/** A point as fractions of the window's width and height. */
type Fraction = readonly [x: number, y: number];

const grid = (fractions: readonly number[]): Fraction[] =>
  fractions.flatMap((y) => fractions.map((x): Fraction => [x, y]));

/** Row by row. @source projector practice, ANSI IT7.228 (from memory) */
export const ninePoints: readonly Fraction[] = grid([1 / 6, 1 / 2, 5 / 6]);
/** Centre, then top left, top right, bottom left, bottom right. @source sampled uniformity of displays, VESA FPDM (from memory) */
export const fivePoints: readonly Fraction[] = [
  [0.5, 0.5],
  [0.1, 0.1],
  [0.9, 0.1],
  [0.1, 0.9],
  [0.9, 0.9],
];
/** A 10/50/90 % grid row by row, then four at 30/70 %. @source common practice in data sheets of display panels */
export const thirteenPoints: readonly Fraction[] = [...grid([0.1, 0.5, 0.9]), ...grid([0.3, 0.7])];

/** A point may move so far, mm, and never over this share of the side. */
const farthestMoveMm = 2;
const farthestMoveShare = 0.2;
/** A point needs so much glow in its aperture. */
const leastGlowShare = 0.3;

/** Mean light and share of glow in a round aperture; cells belong to it by their centres. */
function readAperture(map: GlowMap, xMm: number, yMm: number, radiusMm: number): { mean: number; glowShare: number } {
  const { pxPerMm, glow, relLuminance } = map;
  let sum = 0;
  let glowing = 0;
  let cells = 0;
  const radius2 = radiusMm * radiusMm + 1e-9;
  for (let row = Math.floor((yMm - radiusMm) * pxPerMm); row <= Math.floor((yMm + radiusMm) * pxPerMm); row++) {
    for (
      let column = Math.floor((xMm - radiusMm) * pxPerMm);
      column <= Math.floor((xMm + radiusMm) * pxPerMm);
      column++
    ) {
      const dx = (column + 0.5) / pxPerMm - xMm;
      const dy = (row + 0.5) / pxPerMm - yMm;
      if (dx * dx + dy * dy > radius2) continue;
      cells += 1;
      if (row < 0 || column < 0 || row >= glow.height || column >= glow.width) continue;
      const at = row * glow.width + column;
      if (!glow.values[at]) continue;
      glowing += 1;
      sum += relLuminance.values[at];
    }
  }
  return { mean: sum / glowing, glowShare: cells ? glowing / cells : 0 };
}

/** Moves in steps of one cell, nearest first; equal distances row by row. */
function movesFor(map: GlowMap): { dxMm: number; dyMm: number; distance2: number }[] {
  const stepMm = 1 / map.pxPerMm;
  const reachX = Math.min(farthestMoveMm, farthestMoveShare * map.widthMm) + 1e-9;
  const reachY = Math.min(farthestMoveMm, farthestMoveShare * map.heightMm) + 1e-9;
  const moves: { dxMm: number; dyMm: number; distance2: number }[] = [];
  for (let dyMm = -Math.floor(reachY / stepMm) * stepMm; dyMm <= reachY; dyMm += stepMm) {
    for (let dxMm = -Math.floor(reachX / stepMm) * stepMm; dxMm <= reachX; dxMm += stepMm) {
      const distance2 = dxMm * dxMm + dyMm * dyMm;
      if (distance2 <= farthestMoveMm * farthestMoveMm + 1e-9) moves.push({ dxMm, dyMm, distance2 });
    }
  }
  return moves.sort((a, b) => a.distance2 - b.distance2);
}

/**
 * Luminance at a set of measuring points, relative to the brightest.
 *
 * Aperture: a circle of diameter max(1.5 mm, 4 % of the height); its value is the plain mean of its glow cells. Where less
 * than 30 % of it is glow (print, border), the point moves to the nearest place that has 30 %, in steps of a cell, up to 2 mm
 * and never over 20 % of the side; equally near places in the order of rows. Else the point is null.
 *
 * @param map     not altered
 * @param points  fractions of the full window
 * @returns values 0..1 with the brightest at 1; all null when there is no light
 * @source aperture and moves: our own choice; point sets: see each
 * @rule EV5
 */
export function samplePoints(map: GlowMap, points: readonly Fraction[]): PointSet {
  const radiusMm = Math.max(1.5, 0.04 * map.heightMm) / 2;
  const moves = movesFor(map);
  const light = points.map(([x, y]) => {
    for (const { dxMm, dyMm } of moves) {
      const { mean, glowShare } = readAperture(map, x * map.widthMm + dxMm, y * map.heightMm + dyMm, radiusMm);
      if (glowShare >= leastGlowShare) return mean;
    }
    return null;
  });
  const found = light.filter((value): value is number => value !== null);
  const brightest = Math.max(...found);
  if (!(brightest > 0)) return { minOverMax: null, values: points.map(() => null) };
  const isEnough = 3 * found.length >= 2 * points.length;
  return {
    minOverMax: isEnough ? Math.min(...found) / brightest : null,
    values: light.map((value) => (value === null ? null : value / brightest)),
  };
}
