import type { Plane } from '../../../core/base/plane';

/** Half the height of the band that a profile takes its means over. */
const halfBandMm = 1.5;

export interface ProfilePoint {
  readonly xMm: number;
  /** Over the median of the glow; null where the band holds no glow. */
  readonly ratio: number | null;
}

/**
 * Luminance along the window, the mean of each column's glow within 1.5 mm of a height.
 *
 * @param glow  4 cells a mm, NaN = no glow
 * @param level  luminance that counts as 1
 * @source our own choice: a band wide enough to pass round figures of print
 */
export function profileAlong(glow: Plane, level: number, atMm: number): ProfilePoint[] {
  const cellsPerMm = 4;
  const from = Math.max(0, Math.floor((atMm - halfBandMm) * cellsPerMm));
  const to = Math.min(glow.height, Math.ceil((atMm + halfBandMm) * cellsPerMm));
  return Array.from({ length: glow.width }, (_, column) => {
    let sum = 0;
    let count = 0;
    for (let row = from; row < to; row++) {
      const value = glow.values[row * glow.width + column];
      if (Number.isNaN(value)) continue;
      sum += value;
      count++;
    }
    return { xMm: (column + 0.5) / cellsPerMm, ratio: count === 0 ? null : sum / count / level };
  });
}
