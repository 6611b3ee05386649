import { cellsPerMm, type GlowCells, glowValues } from './glow-cells';
import { normalisedBlur } from './normalised-blur';

export interface ClassicFigures {
  readonly minOverMax: number;
  readonly p5OverP95: number;
  readonly coefficientOfVariation: number;
  readonly steepestPercentPerMm: number;
  readonly leftOverRight: number;
  readonly topOverBottom: number;
}

/** Luminance after a normalised blur of 0.5 mm, in cells; the classic figures and the points are read from it. */
export function smoothedLuminance(cells: GlowCells): Float64Array {
  return normalisedBlur(cells.xyz[1], cells.inOutline, cells.columns, cells.rows, 0.5 * cellsPerMm);
}

/** Percentile with linear interpolation between neighbours, `share` 0..1. */
export function percentile(values: Float64Array, share: number): number {
  const sorted = values.slice().sort();
  const place = share * (sorted.length - 1);
  const below = Math.floor(place);
  const above = Math.min(below + 1, sorted.length - 1);
  return sorted[below] + (place - below) * (sorted[above] - sorted[below]);
}

function mean(values: Float64Array): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

/** 99th percentile of |grad ln L| after a blur of 1 mm, per cent per mm. */
function steepest(cells: GlowCells): number {
  const { columns, rows, xyz, inOutline, isGlow } = cells;
  const logLight = normalisedBlur(xyz[1], inOutline, columns, rows, cellsPerMm).map(Math.log);
  const slopes: number[] = [];
  isGlow.forEach((glows, at) => {
    if (!glows) return;
    const across = ((logLight[at + 1] - logLight[at - 1]) * cellsPerMm) / 2;
    const down = ((logLight[at + columns] - logLight[at - columns]) * cellsPerMm) / 2;
    slopes.push(Math.hypot(across, down));
  });
  return 100 * percentile(Float64Array.from(slopes), 0.99);
}

function meanWhere(cells: GlowCells, plane: Float64Array, chosen: (column: number, row: number) => boolean): number {
  const picked = plane.filter(
    (_, at) => cells.isGlow[at] === 1 && chosen(at % cells.columns, Math.floor(at / cells.columns)),
  );
  return mean(picked);
}

export function classicFigures(cells: GlowCells, smoothed: Float64Array): ClassicFigures {
  const glow = glowValues(cells, smoothed);
  const average = mean(glow);
  const variance = mean(glow.map((value) => (value - average) ** 2));
  const middleColumn = (cells.widthMm * cellsPerMm) / 2;
  const middleRow = (cells.heightMm * cellsPerMm) / 2;
  return {
    minOverMax: glow.reduce((a, b) => Math.min(a, b)) / glow.reduce((a, b) => Math.max(a, b)),
    p5OverP95: percentile(glow, 0.05) / percentile(glow, 0.95),
    coefficientOfVariation: Math.sqrt(variance) / average,
    steepestPercentPerMm: steepest(cells),
    leftOverRight:
      meanWhere(cells, smoothed, (column) => column + 0.5 < middleColumn) /
      meanWhere(cells, smoothed, (column) => column + 0.5 > middleColumn),
    topOverBottom:
      meanWhere(cells, smoothed, (_, row) => row + 0.5 < middleRow) /
      meanWhere(cells, smoothed, (_, row) => row + 0.5 > middleRow),
  };
}
