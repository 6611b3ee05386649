import type { Plane } from '../base/plane';
import { medianOf } from '../base/stats';

/** Half the width of the band that a profile takes its means over: wide enough to pass round figures of print. */
const halfBandMm = 1.5;
const cellsPerMm = 4;

export interface ProfilePoint {
  readonly alongMm: number;
  /** Over the median of the glow; null where the band holds no glow. */
  readonly ratio: number | null;
}

/**
 * Luminance along a line through the middle of the window: the mean of the glow within 1.5 mm of it, over the median of
 * the glow.
 *
 * @param glow  4 cells a mm, NaN = no glow; not altered
 * @param way   across: left to right at half height; down: top to bottom at half width
 * @source our own choice
 * @rule RS5
 */
export function profileThrough(glow: Plane, way: 'across' | 'down'): ProfilePoint[] {
  const { width, height, values } = glow;
  const median = medianOf(Array.from(values).filter(Number.isFinite));
  const [length, breadth] = way === 'across' ? [width, height] : [height, width];
  const from = Math.max(0, Math.floor(breadth / 2 - halfBandMm * cellsPerMm));
  const to = Math.min(breadth, Math.ceil(breadth / 2 + halfBandMm * cellsPerMm));
  return Array.from({ length }, (_, along) => {
    let sum = 0;
    let count = 0;
    for (let aside = from; aside < to; aside++) {
      const value = way === 'across' ? values[aside * width + along] : values[along * width + aside];
      if (!Number.isFinite(value)) continue;
      sum += value;
      count++;
    }
    return { alongMm: (along + 0.5) / cellsPerMm, ratio: count === 0 ? null : sum / count / median };
  });
}
