import { describe, expect, it } from 'vitest';
import { leanOf } from '../../../../core/advice/next/changed-light';
import { suggestNext } from '../../../../core/advice/next/suggest';
import { scoreOfLight, type MeasuredMap } from '../../../../core/advice/measured-map';
import { figure, missing } from '../../../../core/contract/figure';
import { suggestedActions } from '../../../../core/contract/next-advice';
import { drawnMap, spots } from '../../../support/drawn-maps';

const inputOf = (map: MeasuredMap, plusMinus = 4) => ({
  score: figure(scoreOfLight(map, map.light), plusMinus),
  map,
  spots: [{ kind: 'hot' as const, xMm: 8, yMm: 6 }],
});

describe('suggestNext', () => {
  it('[NX1] suggests nothing for a calm window, and nothing without a score', () => {
    const calm = drawnMap(30, 12, (x) => 1 + 0.002 * x);
    expect(suggestNext(inputOf(calm))).toMatchObject({
      suggestions: [],
      note: expect.stringMatching(/nothing to gain/),
    });
    expect(suggestNext({ ...inputOf(calm), score: missing('clipped') }).note).toMatch(/clipped/);
    const nearlyCalm = drawnMap(30, 12, spots({ xMm: 8, yMm: 6, peak: 1.13, sigmaMm: 3 }));
    expect(suggestNext(inputOf(nearlyCalm, 8)).suggestions).toEqual([]);
  });

  it('[NX1] orders by effort and care, the shade last, each gain above its plus-minus', () => {
    const { suggestions, note } = suggestNext(
      inputOf(drawnMap(30, 12, spots({ xMm: 8, yMm: 6, peak: 3, sigmaMm: 3 }))),
    );
    const actions = suggestions.map(({ action }) => action);
    expect(note).toBeNull();
    expect(actions).toEqual(suggestedActions.filter((action) => actions.includes(action)));
    expect(actions).toContain('diffuse');
    expect(actions.at(-1)).toBe('shade');
    for (const { gain, caution } of suggestions) {
      expect(gain.value!).toBeGreaterThan(gain.plusMinus!);
      expect(caution).toMatch(/Unplug/);
    }
  });

  it('[NX2] tells a lean to one side, and mirrors it', () => {
    const toRight = drawnMap(30, 12, (x) => Math.exp(0.05 * x));
    const toLeft = drawnMap(30, 12, (x) => Math.exp(0.05 * (30 - x)));
    expect(leanOf(toRight).perMm[0]).toBeWithin(0.05, 1e-4); // cells are means over a quarter of a mm
    expect(leanOf(toLeft).perMm[0]).toBeWithin(-0.05, 1e-4);
    expect(leanOf(toRight).perMm[1]).toBeWithin(0, 1e-4);
    const { suggestions } = suggestNext({ ...inputOf(toRight), spots: [] });
    expect(suggestions.map(({ action }) => action)).toContain('turn-or-move');
    expect(suggestions.map(({ action }) => action)).not.toContain('wide-lamp');
  });
});
