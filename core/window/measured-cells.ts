import { createMask, type Mask } from '../base/plane';
import type { RectifiedWindow } from './rectified';

/** The cells of `within` where all three channels were measured. @source our own choice @rule PM3 */
export function measuredCells(window: RectifiedWindow, within: Mask): Mask {
  const mask = createMask(within.width, within.height);
  for (let i = 0; i < mask.values.length; i++) {
    const sum = window.red.values[i] + window.green.values[i] + window.blue.values[i];
    if (within.values[i] && Number.isFinite(sum)) mask.values[i] = 1;
  }
  return mask;
}
