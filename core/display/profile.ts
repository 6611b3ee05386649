import type { Plane } from '../base/plane';

/** Half the width of the band that a profile takes its means over: wide enough to pass round figures of print. */
const halfBandMm = 1.5;
const cellsPerMm = 4;

export interface ProfilePoint {
  readonly alongMm: number;
  /** Over the level; null where the band holds no glow. */
  readonly ratio: number | null;
}

/**
 * Luminance along a line: the mean of the glow within 1.5 mm of it.
 *
 * @param glow   4 cells a mm, NaN = no glow; not altered
 * @param level  luminance that counts as 1
 * @param atMm   where the line runs: its height when it goes across, else its distance from the left
 * @param way    across: left to right; down: top to bottom
 * @source our own choice
 * @rule RS5
 */
export function profileAlong(glow: Plane, level: number, atMm: number, way: 'across' | 'down'): ProfilePoint[] {
  const { width, height, values } = glow;
  const [length, breadth] = way === 'across' ? [width, height] : [height, width];
  const from = Math.max(0, Math.floor((atMm - halfBandMm) * cellsPerMm));
  const to = Math.min(breadth, Math.ceil((atMm + halfBandMm) * cellsPerMm));
  return Array.from({ length }, (_, along) => {
    let sum = 0;
    let count = 0;
    for (let aside = from; aside < to; aside++) {
      const value = way === 'across' ? values[aside * width + along] : values[along * width + aside];
      if (!Number.isFinite(value)) continue;
      sum += value;
      count++;
    }
    return { alongMm: (along + 0.5) / cellsPerMm, ratio: count === 0 ? null : sum / count / level };
  });
}
