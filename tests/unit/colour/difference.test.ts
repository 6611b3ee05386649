import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { deltaE00, deltaE76 } from '../../../core/colour/difference';
import type { Triple } from '../../../core/colour/matrix3';
import { workedExamples } from '../../support/worked-examples';

const lab = fc.tuple(
  fc.double({ min: 0, max: 100, noNaN: true }),
  fc.double({ min: -128, max: 128, noNaN: true }),
  fc.double({ min: -128, max: 128, noNaN: true }),
);

describe('colour differences', () => {
  test('[CO7] are symmetric, never negative, and 0 for one colour', () => {
    fc.assert(
      fc.property(lab, lab, (a, b) => {
        expect(deltaE00(a, b)).toBeWithin(deltaE00(b, a), 1e-10);
        expect(deltaE76(a, b)).toBe(deltaE76(b, a));
        expect(deltaE00(a, b)).toBeGreaterThanOrEqual(0);
        expect([deltaE00(a, a), deltaE76(b, b)]).toEqual([0, 0]);
      }),
      { seed: 46, numRuns: 500 },
    );
  });

  test('[CO7] opposite hues are a tie that does not flip with the last digit', () => {
    const shifts = [-1e-13, 0, 1e-13];
    const values = shifts.map((shift) => deltaE00([50, 2.49, -0.001], [50, -2.49, 0.001 + shift]));
    // the published value of the tie; the other branch would give 7.2195
    for (const value of values) expect(value).toBeWithin(7.1792, 5.1e-5);
  });

  test('[CO7] on the grey axis only lightness counts, and mid grey counts most', () => {
    // S_L = 1 at L* = 50
    expect(deltaE00([49.5, 0, 0], [50.5, 0, 0])).toBeWithin(1, 1e-12);
    expect(deltaE00([9.5, 0, 0], [10.5, 0, 0])).toBeLessThan(0.65);
  });

  test('[CO7] a missing value stays missing', () => {
    expect(deltaE00([50, NaN, 2], [51, 3, 4])).toBeNaN();
    expect(deltaE76([NaN, 1, 2], [51, 3, 4])).toBeNaN();
  });

  test.each(workedExamples<{ lab1: Triple; lab2: Triple }, { dE00: number }>('de2000-'))('[CO7] $id', (example) => {
    const { lab1, lab2 } = example.input;
    expect(deltaE00(lab1, lab2)).toBeWithin(example.expected.dE00, example.tolerance as number);
  });
});
