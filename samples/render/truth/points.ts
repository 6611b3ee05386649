import { cellsPerMm, type GlowCells } from './glow-cells';

export interface PointFigures {
  readonly minOverMax: number | null;
  /** Relative to the largest; null where too little glow lies in the aperture. */
  readonly values: readonly (number | null)[];
}

type Fraction = readonly [number, number];
const gridOf = (steps: readonly number[]): Fraction[] => steps.flatMap((y) => steps.map((x): Fraction => [x, y]));

export const ninePoints = gridOf([1 / 6, 1 / 2, 5 / 6]);
export const fivePoints: readonly Fraction[] = [
  [0.5, 0.5],
  [0.1, 0.1],
  [0.9, 0.1],
  [0.1, 0.9],
  [0.9, 0.9],
];
export const thirteenPoints: readonly Fraction[] = [
  ...gridOf([0.1, 0.5, 0.9]),
  [0.3, 0.3],
  [0.7, 0.3],
  [0.3, 0.7],
  [0.7, 0.7],
];

/** Furthest that an aperture may be moved, mm and as a share of the side. */
const furthestMm = 2;
const furthestShare = 0.2;

/**
 * Mean of the glow in a round aperture of max(1.5 mm, 4 % of the height) at fractions of the full window. An aperture with under 30 % glow moves
 * to the nearest place that has more, at most 2 mm and 20 % of the side; else its value is null.
 */
export function pointFigures(cells: GlowCells, smoothed: Float64Array, places: readonly Fraction[]): PointFigures {
  const means = places.map(([x, y]) => nearestMean(cells, smoothed, x * cells.widthMm, y * cells.heightMm));
  const measured = means.filter((value) => value !== null);
  const largest = Math.max(...measured);
  return {
    minOverMax: measured.length >= (2 / 3) * places.length ? Math.min(...measured) / largest : null,
    values: means.map((value) => (value === null ? null : value / largest)),
  };
}

function nearestMean(cells: GlowCells, smoothed: Float64Array, xMm: number, yMm: number): number | null {
  const radiusMm = Math.max(1.5, 0.04 * cells.heightMm) / 2;
  const reach = furthestMm * cellsPerMm;
  const moves: { dx: number; dy: number; away: number }[] = [];
  for (let row = -reach; row <= reach; row++) {
    for (let column = -reach; column <= reach; column++) {
      const [dx, dy] = [column / cellsPerMm, row / cellsPerMm];
      const allowed = Math.abs(dx) <= furthestShare * cells.widthMm && Math.abs(dy) <= furthestShare * cells.heightMm;
      if (allowed && Math.hypot(dx, dy) <= furthestMm) moves.push({ dx, dy, away: Math.hypot(dx, dy) });
    }
  }
  moves.sort((a, b) => a.away - b.away);
  for (const { dx, dy } of moves) {
    const mean = apertureMean(cells, smoothed, xMm + dx, yMm + dy, radiusMm);
    if (mean !== null) return mean;
  }
  return null;
}

function apertureMean(
  cells: GlowCells,
  smoothed: Float64Array,
  xMm: number,
  yMm: number,
  radiusMm: number,
): number | null {
  let sum = 0;
  let glowing = 0;
  let all = 0;
  for (let row = Math.floor((yMm - radiusMm) * cellsPerMm); row <= (yMm + radiusMm) * cellsPerMm; row++) {
    for (let column = Math.floor((xMm - radiusMm) * cellsPerMm); column <= (xMm + radiusMm) * cellsPerMm; column++) {
      const away = Math.hypot((column + 0.5) / cellsPerMm - xMm, (row + 0.5) / cellsPerMm - yMm);
      if (away > radiusMm) continue;
      all++;
      if (row < 0 || column < 0 || row >= cells.rows || column >= cells.columns) continue;
      const at = row * cells.columns + column;
      if (!cells.isGlow[at]) continue;
      glowing++;
      sum += smoothed[at];
    }
  }
  return glowing >= 0.3 * all ? sum / glowing : null;
}
