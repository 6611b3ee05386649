import { quantile, smoothedLuminance } from './classic';
import { cellsPerMm, glowCells, type GlowMap } from './glow-cells';

export interface TrueSpot {
  readonly xMm: number;
  readonly yMm: number;
  /** Peak over the median of the glow. */
  readonly ratioToGlow: number;
  /** Diameter of a circle as large as the region above half of the peak's height (in logarithms over the median). */
  readonly diameterMm: number;
}

function regionAbove(map: GlowMap, luminance: Float64Array, from: number, level: number): number {
  const seen = new Set([from]);
  const open = [from];
  for (let i = open.pop(); i !== undefined; i = open.pop()) {
    for (const next of [i - 1, i + 1, i - map.nx, i + map.nx]) {
      if (!seen.has(next) && map.glow[next] && luminance[next] >= level) {
        seen.add(next);
        open.push(next);
      }
    }
  }
  return seen.size;
}

/** Local maxima at least 8 % above the median of the glow and highest within 4 mm, brightest first. */
export function trueSpots(map: GlowMap): TrueSpot[] {
  const luminance = smoothedLuminance(map);
  const cells = glowCells(map);
  const median = quantile(Float64Array.from(cells.map((i) => luminance[i])).sort(), 0.5);
  const reach = 4 * cellsPerMm;
  const isPeak = (i: number) => {
    const [column, row] = [i % map.nx, Math.floor(i / map.nx)];
    for (let r = Math.max(row - reach, 0); r <= Math.min(row + reach, map.ny - 1); r++) {
      for (let c = Math.max(column - reach, 0); c <= Math.min(column + reach, map.nx - 1); c++) {
        const other = r * map.nx + c;
        if (!map.glow[other] || Math.hypot(c - column, r - row) > reach) continue;
        if (luminance[other] > luminance[i] || (luminance[other] === luminance[i] && other < i)) return false;
      }
    }
    return true;
  };
  return cells
    .filter((i) => luminance[i] >= 1.08 * median && isPeak(i))
    .sort((a, b) => luminance[b] - luminance[a])
    .map((i) => {
      const ratio = luminance[i] / median;
      const area = regionAbove(map, luminance, i, median * Math.sqrt(ratio)) / cellsPerMm ** 2;
      return {
        xMm: ((i % map.nx) + 0.5) / cellsPerMm,
        yMm: (Math.floor(i / map.nx) + 0.5) / cellsPerMm,
        ratioToGlow: ratio,
        diameterMm: 2 * Math.sqrt(area / Math.PI),
      };
    });
}
