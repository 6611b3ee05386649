import { cellsPerMm, glowCells, type GlowMap } from './glow-cells';
import { weightedBlur } from './smoothing';

/** The p-quantile (0..1) of sorted values, linear between neighbours. */
export function quantile(sorted: ArrayLike<number>, p: number): number {
  const at = p * (sorted.length - 1);
  const low = Math.floor(at);
  const high = Math.min(low + 1, sorted.length - 1);
  return sorted[low] + (sorted[high] - sorted[low]) * (at - low);
}

const meanOf = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0) / values.length;

/** Luminance smoothed by 0.5 mm over the whole outline. */
export function smoothedLuminance(map: GlowMap): Float64Array {
  return weightedBlur(map.xyz[1], map.insideOutline, map.nx, map.ny, 0.5 * cellsPerMm);
}

export interface ClassicFigures {
  readonly minOverMax: number;
  readonly p5OverP95: number;
  readonly coefficientOfVariation: number;
  readonly steepestPercentPerMm: number;
  readonly leftOverRight: number;
  readonly topOverBottom: number;
}

function steepest(map: GlowMap, cells: readonly number[]): number {
  const smooth = weightedBlur(map.xyz[1], map.insideOutline, map.nx, map.ny, cellsPerMm).map(Math.log);
  const perMm = cells.map((i) => {
    const across = ((smooth[i + 1] - smooth[i - 1]) / 2) * cellsPerMm;
    const down = ((smooth[i + map.nx] - smooth[i - map.nx]) / 2) * cellsPerMm;
    return Math.hypot(across, down);
  });
  return 100 * quantile(Float64Array.from(perMm).sort(), 0.99);
}

/** Plain evenness figures of the glow; ratios 0..1, the steepest change in per cent per mm. */
export function classicFigures(map: GlowMap): ClassicFigures {
  const smooth = smoothedLuminance(map);
  const cells = glowCells(map);
  const values = cells.map((i) => smooth[i]);
  const sorted = Float64Array.from(values).sort();
  const mean = meanOf(values);
  const deviation = Math.sqrt(meanOf(values.map((value) => (value - mean) ** 2)));
  const where = (test: (xMm: number, yMm: number) => boolean) =>
    meanOf(
      cells
        .filter((i) => test(((i % map.nx) + 0.5) / cellsPerMm, (Math.floor(i / map.nx) + 0.5) / cellsPerMm))
        .map((i) => smooth[i]),
    );
  const { widthMm, heightMm } = map.shape;
  return {
    minOverMax: sorted[0] / sorted[sorted.length - 1],
    p5OverP95: quantile(sorted, 0.05) / quantile(sorted, 0.95),
    coefficientOfVariation: deviation / mean,
    steepestPercentPerMm: steepest(map, cells),
    leftOverRight: where((x) => x < widthMm / 2) / where((x) => x > widthMm / 2),
    topOverBottom: where((_, y) => y < heightMm / 2) / where((_, y) => y > heightMm / 2),
  };
}
