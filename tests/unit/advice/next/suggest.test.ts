import { describe, expect, it } from 'vitest';
import { leanOf } from '../../../../core/advice/next/changed-light';
import { modelLight, type ModelLamp } from '../../../../core/advice/place/lamp-model';
import { meanOf } from '../../../../core/base/stats';
import { suggestNext } from '../../../../core/advice/next/suggest';
import { scoreOfLight, type MeasuredMap } from '../../../../core/advice/measured-map';
import { figure, missing } from '../../../../core/contract/figure';
import { suggestedActions } from '../../../../core/contract/next-advice';
import { drawnMap, spots } from '../../../support/drawn-maps';

const inputOf = (map: MeasuredMap, plusMinus = 4) => ({
  score: figure(scoreOfLight(map, map.light), plusMinus),
  map,
  isSizeKnown: true,
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
    const { suggestions, cautions, note } = suggestNext(
      inputOf(drawnMap(30, 12, spots({ xMm: 8, yMm: 6, peak: 3, sigmaMm: 3 }))),
    );
    const actions = suggestions.map(({ action }) => action);
    expect(note).toBeNull();
    expect(actions).toEqual(suggestedActions.filter((action) => actions.includes(action)));
    expect(actions).toContain('diffuse');
    expect(actions.at(-1)).toBe('shade');
    // The same for all, told once: each has only what is its own apart, and the whole for whoever looks at one alone.
    expect(cautions).toEqual([expect.stringMatching(/^Unplug/)]);
    for (const { gain, caution, ownCaution } of suggestions) {
      expect(gain.value!).toBeGreaterThan(gain.plusMinus!);
      expect(caution).toBe(`${cautions[0]} ${ownCaution}`);
      expect(ownCaution).toMatch(/^(?!.*Unplug)./);
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

  it('[NX4] moves lamps back that stand close, by no more than helps, and says what it costs', () => {
    const lamp = (xMm: number): ModelLamp => ({ xMm, yMm: 9, depthMm: 8, lobe: 2.4, slopes: [0, 0], strength: 2.5 });
    const of = (lamps: ModelLamp[]) => drawnMap(92, 18, (x, y) => modelLight({ lamps, boxLight: 0.8 }, x, y));
    const map = of([lamp(22), lamp(70)]);
    const { suggestions } = suggestNext({
      ...inputOf(map),
      spots: [22, 70].map((xMm) => ({ kind: 'hot', xMm, yMm: 9 })),
    });
    const back = suggestions.find(({ action }) => action === 'move-back');
    if (!back) throw new Error(suggestions.map(({ action }) => action).join());
    expect(back.words).toMatch(/^Move the lamps back by about \d+ mm(; it takes \d+ % of the light)?\.$/);
    const { backMm, lightLoss } = back.details;
    expect(backMm).toBeWithin(12, 2); // a grid of 2 mm: nine tenths of the most, which is at 14
    const moved = [22, 70].map((xMm) => ({ ...lamp(xMm), depthMm: 8 + backMm, strength: 2.5 * (8 / (8 + backMm)) ** 2 })); // prettier-ignore
    const truth = of(moved);
    const gained = scoreOfLight(truth, truth.light) - scoreOfLight(map, map.light);
    expect(Math.abs(back.gain.value! - gained)).toBeLessThan(back.gain.plusMinus!);
    expect(lightLoss).toBeWithin(1 - meanOf(truth.light.values) / meanOf(map.light.values), 0.03); // half the cells
    expect(suggestions.map(({ action }) => action)).toContain('diffuse');
  });
});
