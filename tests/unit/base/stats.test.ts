import { describe, expect, it } from 'vitest';
import { medianOf, percentilesOf } from '../../../core/base/stats';
import { seededRandom } from '../../support/seeded-random';

/** The same by sorting. */
function percentilesPlainly(values: readonly number[], percents: readonly number[]): number[] {
  const sorted = [...values].sort((a, b) => a - b);
  return percents.map((percent) => {
    const place = (percent / 100) * (sorted.length - 1);
    const below = Math.floor(place);
    const above = Math.min(below + 1, sorted.length - 1);
    return sorted[below] + (sorted[above] - sorted[below]) * (place - below);
  });
}

describe('percentilesOf', () => {
  it('[EV4] gives to the last bit what sorting gives, for percents in any order', () => {
    const random = seededRandom(41);
    const lists = [
      [7],
      [2, 1],
      Array.from({ length: 500 }, () => random()),
      Array.from({ length: 501 }, () => Math.floor(5 * random())),
      Array.from({ length: 400 }, (_, i) => i),
      Array.from({ length: 400 }, (_, i) => -i),
      new Array<number>(300).fill(3),
      Array.from({ length: 256 }, (_, i) => Math.min(i, 255 - i)),
    ];
    for (const list of lists) {
      const before = [...list];
      const percents = [50, 0, 99, 100, 5, 33.3, 95];
      expect(percentilesOf(list, percents)).toEqual(percentilesPlainly(list, percents));
      expect(list).toEqual(before);
    }
  });

  it('[EV4] an empty list has none', () => {
    expect(percentilesOf([], [5, 95])).toEqual([NaN, NaN]);
    expect(medianOf([])).toBeNaN();
  });
});
