import type { Plane } from '../base/plane';
import { medianOf } from '../base/stats';
import { profileAlong, type ProfilePoint } from '../display/profile';

const cellsPerMm = 4;

/**
 * Luminance through the middle of the window, over the median of the glow.
 *
 * @param glow  4 cells a mm, NaN = no glow; not altered
 * @param way   across: left to right at half height; down: top to bottom at half width
 * @source our own choice
 * @rule RS5
 */
export function profileThrough(glow: Plane, way: 'across' | 'down'): ProfilePoint[] {
  const median = medianOf(Array.from(glow.values).filter(Number.isFinite));
  const breadth = way === 'across' ? glow.height : glow.width;
  return profileAlong(glow, median, breadth / 2 / cellsPerMm, way);
}
