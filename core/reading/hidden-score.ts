import { createMask, type Mask, type Plane } from '../base/plane';
import { percentilesOf } from '../base/stats';
import { scoreEvenness, type EvennessOptions } from './evenness';
import type { GlowMap } from './glow-map';

/** How far around a hidden cell light is looked for, mm. */
const neighbourhoodMm = 2;

/** Light of print-free cells about a cell, in a square of the neighbourhood's size; wider until there is any. */
function lightAbout(map: GlowMap, column: number, row: number): number[] {
  const { width, height } = map.glow;
  for (let reach = Math.round(neighbourhoodMm * map.pxPerMm); ; reach *= 2) {
    const found: number[] = [];
    for (let y = Math.max(0, row - reach); y <= Math.min(height - 1, row + reach); y++) {
      for (let x = Math.max(0, column - reach); x <= Math.min(width - 1, column + reach); x++) {
        if (map.printFree.values[y * width + x]) found.push(map.relLuminance.values[y * width + x]);
      }
    }
    if (found.length > 0 || reach > Math.max(width, height)) return found;
  }
}

/** The map with its hidden cells filled by a low and by a high percentile of the light about them. */
function filledMaps(map: GlowMap): { low: Plane; high: Plane; counted: Mask } {
  const low = { ...map.relLuminance, values: map.relLuminance.values.slice() };
  const high = { ...map.relLuminance, values: map.relLuminance.values.slice() };
  const counted = createMask(map.glow.width, map.glow.height);
  for (let i = 0; i < counted.values.length; i++) {
    if (map.glow.values[i]) counted.values[i] = 1;
    if (!map.hidden.values[i]) continue;
    const row = Math.floor(i / counted.width);
    const [p5, p95] = percentilesOf(lightAbout(map, i - row * counted.width, row), [5, 95]);
    if (!Number.isFinite(p5)) continue;
    counted.values[i] = 1;
    low.values[i] = p5;
    high.values[i] = p95;
  }
  return { low, high, counted };
}

/**
 * Standard uncertainty (k = 1) of the score from what print hides: half of the spread of the scores when hidden cells are taken
 * to be as dark as the 5th, or as bright as the 95th percentile of their neighbourhood. For windows under 9 mm height or with less
 * than half of glow, where print may cover a whole spot; 0 for others.
 *
 * @returns points, 0 or more
 * @source our own choice: a 16 x 7 mm window with 38 % glow read 79 for 62
 * @rule UN8
 */
export function hiddenScoreUncertainty(map: GlowMap, score: number, options: EvennessOptions): number {
  if (Math.min(map.widthMm, map.heightMm) >= 9 && map.glowShare >= 0.5) return 0;
  const { low, high, counted } = filledMaps(map);
  const scores = [low, high].map((plane) => scoreEvenness(plane, counted, options).score);
  return (Math.max(score, ...scores) - Math.min(score, ...scores)) / 2;
}
