import { beforeAll, describe, expect, it } from 'vitest';
import { suggestNext } from '../../core/advice/next/suggest';
import type { NextDocument } from '../../core/contract/next-advice';
import { chance, photographed, shotOf, trueScore, windowOf } from '../support/advice/scenes';
import { isLongRun, patienceMs } from '../support/long-run';

/** Scenes of these seeds were never looked at while the suggestions were made. */
const firstSeed = 74_000;
const scenes = isLongRun ? 20 : 2;

/** Far lamps behind a diffuser in a white box: even to a careful eye. */
const calm = (seed: number) => {
  const { between } = chance(seed);
  const lamps = [0.25, 0.75].map((share) => ({
    light: 'warm-white' as const,
    xMm: 60 * share,
    yMm: between(8, 12),
    zMm: between(24, 32),
    lobe: between(0.5, 1),
    flux: 15,
  }));
  return windowOf({ widthMm: 60, heightMm: 20 }, 'warm-white', lamps, { diffuseShare: between(0.85, 0.95), diffuserMm: 4 }); // prettier-ignore
};

describe('calm windows, rendered', () => {
  const found: { readonly truth: number; readonly advice: NextDocument }[] = [];
  beforeAll(async () => {
    const windows = Array.from({ length: scenes }, (_, i) => [firstSeed + i, calm(firstSeed + i)] as const);
    const readings = await photographed(windows.map(([seed, window]) => shotOf(window, seed)));
    windows.forEach(([, window], i) => found.push({ truth: trueScore(window), advice: suggestNext(readings[i]) }));
  }, patienceMs);

  it('[NX1] get no suggestion', () => {
    for (const { truth, advice } of found) {
      expect(truth).toBeGreaterThan(95);
      expect(advice.suggestions.map(({ action, gain }) => [action, gain, truth])).toEqual([]);
    }
  });
});
