import { describe, expect, it } from 'vitest';
import { compareInView, compareSeries } from '../../../core/compare/compare-series';
import { figure } from '../../../core/contract/figure';
import type { MeasuredWindow } from '../../../core/contract/measure';
import { MeasuredPhotos } from '../../../core/node/bench/measured-photos';
import { measureAsked } from '../../support/bench-asked';
import { seededRandom } from '../../support/seeded-random';
import { madeUpShown } from './made-up-windows';

const random = seededRandom(7);
const trial = (i: number) =>
  madeUpShown({
    name: `p${i}`,
    score: figure(40 + 50 * random(), 1 + 5 * random()),
    index: figure(60 + 60 * random(), 5 + 10 * random()),
    toReference: figure(0.03 * random(), 0.001 + 0.004 * random()),
  });
const series = (count: number) => [
  madeUpShown({ name: 'lamp', role: 'reference', light: 'filament' }),
  ...Array.from({ length: count }, (_, i) => trial(i)),
];

describe('the trials of one window as one of them is looked at', () => {
  it('[PR3] are in the order that comparing every two gives, with the pairs of that one alone', () => {
    const shown = series(40);
    const every = compareSeries(['scale'], shown, []);
    for (const inView of ['p0', 'p17', 'p39']) {
      const { ranking, pairs } = compareInView('scale', shown, inView);
      expect(ranking).toEqual(every.ranking);
      expect(pairs).toHaveLength(39);
      expect(pairs).toEqual(every.pairs.filter(({ a, b }) => a === inView || b === inView));
    }
    expect(compareInView('scale', shown, 'lamp').pairs).toEqual([]);
    expect(compareInView('scale', shown, null).ranking).toEqual(every.ranking);
  });

  it('[PR3] of four hundred take processor time for that many comparisons, not for eighty thousand', () => {
    const shown = series(400);
    const started = process.cpuUsage();
    compareInView('scale', shown, 'p3');
    const { user, system } = process.cpuUsage(started);
    // 0.1 s; every two took 3.5 s.
    expect((user + system) / 1e6).toBeLessThan(1);
  });

  it('[BE15] two windows are matched by the photos that show them; without a reading it is refused', () => {
    const photos = new MeasuredPhotos(() => '2026-01-01T00:00:00Z');
    const lay = (id: string, mean: number): void => {
      const { reading, facts } = madeUpShown({ name: id, photo: id, glowMean: figure(mean, 0.01) });
      const measured = {
        role: 'trial',
        reading: { ...reading, timingMs: { decode: 1, measure: 1 } },
        facts,
        maps: null,
      };
      photos.keep(measureAsked(id), measured as MeasuredWindow);
    };
    lay('left', 0.2);
    lay('right', 0.3);
    const match = photos.match('left', 'right');
    expect(match).toMatchObject({ windows: ['left', 'right'], brighter: 'right' });
    expect(match.luminanceRatio.value).toBeWithin(2 / 3, 1e-9);
    expect(() => photos.match('left', 'none')).toThrow(/no reading/);
  });
});
