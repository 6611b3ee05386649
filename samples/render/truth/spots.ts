import { percentile } from './classic';
import { cellsPerMm, type GlowCells, glowValues } from './glow-cells';
import { normalisedBlur } from './normalised-blur';

export interface TrueSpot {
  readonly xMm: number;
  readonly yMm: number;
  /** Luminance of the peak over the median of the glow. */
  readonly ratioToGlow: number;
  /** Of the disk with the area that stays above half of the peak's excess over the median. */
  readonly diameterMm: number;
}

/** A spot stands out by at least this share over the median and over the saddle towards a brighter spot. */
const leastShare = 0.08;

/**
 * Hot spots of the light itself: peaks of the luminance after a blur of 0.75 mm, at least 8 % above the median of the glow and above the
 * saddle to any brighter peak. Cells are taken from bright to dark and joined to their neighbours; when two hills meet, the lower
 * one is kept as a spot only if it rises enough over the meeting point.
 */
export function hotSpots(cells: GlowCells): TrueSpot[] {
  const light = normalisedBlur(cells.xyz[1], cells.inOutline, cells.columns, cells.rows, 0.75 * cellsPerMm);
  const median = percentile(glowValues(cells, light), 0.5);
  // Equal cells are taken in their order, so that of two alike hills the same one is always the higher.
  const higherFirst = (a: number, b: number) => light[b] - light[a] || a - b;
  const order = [...light.keys()].filter((at) => cells.isGlow[at]).sort(higherFirst);
  const hillOf = new Map<number, number>();
  const top = (at: number): number => {
    let hill = at;
    while (hillOf.get(hill) !== hill) hill = hillOf.get(hill)!;
    hillOf.set(at, hill);
    return hill;
  };
  const peaks: number[] = [];
  for (const at of order) {
    const hills = new Set(
      neighbours(cells, at)
        .filter((near) => hillOf.has(near))
        .map(top),
    );
    const sorted = [...hills].sort(higherFirst);
    const home = sorted[0] ?? at;
    hillOf.set(at, home);
    for (const lower of sorted.slice(1)) {
      if (light[lower] >= (1 + leastShare) * light[at]) peaks.push(lower);
      hillOf.set(lower, home);
    }
    if (sorted.length === 0) hillOf.set(at, at);
  }
  const highest = order[0];
  return [highest, ...peaks]
    .filter((peak) => light[peak] >= (1 + leastShare) * median)
    .map((peak) => spotAt(cells, light, median, peak))
    .sort((a, b) => b.ratioToGlow - a.ratioToGlow);
}

function neighbours(cells: GlowCells, at: number): number[] {
  const { columns } = cells;
  return [-columns - 1, -columns, -columns + 1, -1, 1, columns - 1, columns, columns + 1].map((step) => at + step);
}

function spotAt(cells: GlowCells, light: Float64Array, median: number, peak: number): TrueSpot {
  const level = (light[peak] + median) / 2;
  const seen = new Set([peak]);
  for (const at of seen) {
    for (const near of neighbours(cells, at)) if (cells.isGlow[near] && light[near] > level) seen.add(near);
  }
  return {
    xMm: ((peak % cells.columns) + 0.5) / cellsPerMm,
    yMm: (Math.floor(peak / cells.columns) + 0.5) / cellsPerMm,
    ratioToGlow: light[peak] / median,
    diameterMm: Math.sqrt((4 * seen.size) / Math.PI) / cellsPerMm,
  };
}
