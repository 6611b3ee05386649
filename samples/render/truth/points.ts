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

/**
 * Mean of the glow in a round aperture of max(1.5 mm, 4 % of the height) at fractions of the full window; null when under 30 % of
 * the aperture glows. The light has no print here, so no aperture needs to be moved.
 */
export function pointFigures(cells: GlowCells, smoothed: Float64Array, places: readonly Fraction[]): PointFigures {
  const radiusMm = Math.max(1.5, 0.04 * cells.heightMm) / 2;
  const means = places.map(([x, y]) => apertureMean(cells, smoothed, x * cells.widthMm, y * cells.heightMm, radiusMm));
  const measured = means.filter((value) => value !== null);
  const largest = Math.max(...measured);
  return {
    minOverMax: measured.length >= (2 / 3) * places.length ? Math.min(...measured) / largest : null,
    values: means.map((value) => (value === null ? null : value / largest)),
  };
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
