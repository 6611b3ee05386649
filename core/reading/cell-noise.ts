import { blurMasked } from '../base/gaussian';
import { createPlane, type Mask, type Plane } from '../base/plane';
import { medianOf } from '../base/stats';

/**
 * How much neighbouring cells of the glow differ by chance: the robust standard deviation of ln L about itself smoothed
 * over 0.5 mm.
 *
 * 1.4826 times the median absolute deviation, so that edges of print that were left over do not count as noise.
 * The smoothing takes some of the variance away (s = 2 cells: 6 %, so 3 % of the noise), which is not corrected.
 *
 * @param relLuminance  4 cells a mm; not altered
 * @returns 0 or more, ln units (0.01 = 1 %); 0 when fewer than 16 cells glow
 * @source common practice (median absolute deviation); the 0.5 mm are our own choice
 * @rule UN5
 */
export function cellNoise(relLuminance: Plane, glow: Mask, pxPerMm: number): number {
  const logs = createPlane(glow.width, glow.height);
  const lit: Mask = { width: glow.width, height: glow.height, values: glow.values.slice() };
  for (let i = 0; i < logs.values.length; i++) {
    if (!(relLuminance.values[i] > 0)) lit.values[i] = 0;
    if (lit.values[i]) logs.values[i] = Math.log(relLuminance.values[i]);
  }
  const { blurred } = blurMasked(logs, lit, 0.5 * pxPerMm);
  const deviations: number[] = [];
  for (let i = 0; i < lit.values.length; i++) {
    if (lit.values[i]) deviations.push(Math.abs(logs.values[i] - blurred.values[i]));
  }
  return deviations.length < 16 ? 0 : 1.4826 * medianOf(deviations);
}
