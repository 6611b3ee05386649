import { describe, expect, it } from 'vitest';
import { redIndexWords, typicalIndex } from '../../../core/reading/red-index';

describe('typicalIndex', () => {
  it('[RP10] is redness over 0.15, with the doubt about the print in squares', () => {
    const { value, plusMinus } = typicalIndex({ value: 0.12, uncertainty: 0 }, 'dark', true);
    expect(value).toBeWithin(80, 1e-9);
    // 0.8 x 2 x 0.01875 / 0.15
    expect(plusMinus).toBeWithin(20, 1e-9);
  });

  it('[RP10] the range that is typical, 0.12 to 0.17, holds 100 within its plus-minus', () => {
    for (const redness of [0.12, 0.15, 0.17]) {
      const { value, plusMinus } = typicalIndex({ value: redness, uncertainty: 0 }, 'dark', true);
      expect(Math.abs(value! - 100)).toBeLessThanOrEqual(plusMinus! + 1e-9);
    }
  });

  it('[RP10] a dark room that was not checked widens a small index by the light of 5 % that may have been there', () => {
    const of = (isKnown: boolean): number =>
      typicalIndex({ value: 0.0145, uncertainty: 0.004 }, 'dark', isKnown).plusMinus!;
    expect(of(true)).toBeLessThan(of(false));
    // Amber at 9.7 reads 15 with 5 % of room light.
    expect(of(false)).toBeGreaterThan(5.3);
  });

  it('[RP10] never falls below 0', () => {
    expect(typicalIndex({ value: -0.01, uncertainty: 0.004 }, 'dark', true).value).toBe(0);
  });
});

describe('redIndexWords', () => {
  it('[RP11] changes at 20, 45, 75 and above 125', () => {
    const words = [19.9, 20, 44.9, 45, 74.9, 75, 125, 125.1].map((index) => redIndexWords(index, 'reference'));
    expect(words).toEqual([
      'red lost',
      'barely red',
      'barely red',
      'red, a bit duller than with the filament',
      'red, a bit duller than with the filament',
      'as red as with the filament',
      'as red as with the filament',
      'redder than with the filament',
    ]);
    expect(redIndexWords(90, 'typical')).toContain('usual filament');
  });
});
