import type { ShadeMount } from '../contract/shade-advice';

/** What makes a shade's worst score, after "at worst 80 +- 4, ...". @rule AV6 */
export const mountWords: Readonly<Record<ShadeMount, string>> = {
  'as-planned': 'however it is mounted',
  nearer: 'if it lies nearer to the scale (0.7 of the gap)',
  farther: 'if it lies farther from the scale (1.3 of the gap)',
  aside: 'if it is 1 mm to one side',
};
