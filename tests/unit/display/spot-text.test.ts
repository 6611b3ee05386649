import { describe, expect, it } from 'vitest';
import type { SpotEntry } from '../../../core/contract/readings';
import { spotRatioText } from '../../../core/display/spot-text';
import { madeUpReading } from '../cli/made-up';

describe('[SP6] the ratio of a spot in words', () => {
  const ratioText = (changes: Partial<SpotEntry>): string => spotRatioText({ ...spot, ...changes });
  const [spot] = madeUpReading().spots;

  it.each([
    [3.514, 0.907, '3.5 ± 1.0'],
    [1.449, 0.104, '1.45 ± 0.11'],
    [0.893, 0.06, '0.89 ± 0.06'],
    [1.7, 0.3, '1.7 ± 0.3'],
  ])('%d with %d', (ratioToGlow, ratioPlusMinus, text) => {
    expect(ratioText({ ratioToGlow, ratioPlusMinus })).toBe(text);
  });

  it('a bound has the sign of its side and no plus-minus', () => {
    const bound = { atLeast: true, ratioPlusMinus: null };
    expect(ratioText({ ...bound, ratioToGlow: 1.604 })).toBe('≥ 1.60');
    expect(ratioText({ ...bound, kind: 'dark', ratioToGlow: 0.714 })).toBe('≤ 0.71');
  });
});
