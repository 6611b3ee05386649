import { describe, expect, it } from 'vitest';
import { scoreEvenness } from '../../../core/reading/evenness';
import { hiddenScoreUncertainty } from '../../../core/reading/hidden-score';
import { drawGlowMap } from './draw-glow';

const options = { pxPerMm: 4, borderMm: 0.56, viewingDistanceMm: 500 };
const spot = (x: number, y: number): readonly [number, number, number] => {
  const light = 0.3 * (1 + 1.4 * Math.exp(-((x - 8) ** 2 + (y - 3.5) ** 2) / (2 * 1.6 ** 2)));
  return [light, light, light];
};
/** Bars 1 mm wide every 2.2 mm. */
const isBar = (x: number): boolean => x % 2.2 < 1;

describe('hiddenScoreUncertainty', () => {
  it('[UN8] bars over a spot of a 16 x 7 mm window: the truth without print lies within two of it', () => {
    const printed = drawGlowMap(16, 7, spot, isBar, 0.56);
    const plain = drawGlowMap(16, 7, spot, undefined, 0.56);
    const [score, truth] = [printed, plain].map((map) => scoreEvenness(map.relLuminance, map.glow, options).score);
    const hidden = hiddenScoreUncertainty(printed, score, options);
    expect(hidden).toBeGreaterThan(0.5);
    expect(Math.abs(score - truth)).toBeLessThanOrEqual(2 * Math.hypot(hidden, 0.5)); // 0.5: repeat and mask
  });

  it('[UN8] even light hides nothing, nor does a larger window with half glow or more', () => {
    const even = drawGlowMap(16, 7, () => [0.4, 0.3, 0.2], isBar, 0.56);
    expect(hiddenScoreUncertainty(even, 100, options)).toBe(0);
    const large = drawGlowMap(60, 20, spot, (x) => x % 5 < 1);
    expect(hiddenScoreUncertainty(large, 50, { ...options, borderMm: 1 })).toBe(0);
  });
});
