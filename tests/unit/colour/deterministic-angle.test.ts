import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cosDeg, directionDeg, sinDeg } from '../../../core/colour/deterministic-angle';

const radians = (angleDeg: number): number => (angleDeg * Math.PI) / 180;

describe('sinDeg and cosDeg', () => {
  test('agree with Math.sin and Math.cos over three turns each way', () => {
    for (let angleDeg = -1080; angleDeg <= 1080; angleDeg += 0.37) {
      // at 1080 degrees the radians carry a rounding error of 2e-15 themselves
      expect(sinDeg(angleDeg)).toBeWithin(Math.sin(radians(angleDeg)), 5e-15);
      expect(cosDeg(angleDeg)).toBeWithin(Math.cos(radians(angleDeg)), 5e-15);
    }
  });

  test('are exact at quarter turns, where Math.sin is not', () => {
    expect([0, 90, 180, 270, 360, -90, 450].map((angle) => sinDeg(angle) + 0)).toEqual([0, 1, 0, -1, 0, -1, 1]);
    expect([0, 90, 180, 270, 360, -90, 450].map((angle) => cosDeg(angle) + 0)).toEqual([1, 0, -1, 0, 1, 0, 0]);
  });

  test('keep sin^2 + cos^2 = 1, odd and even, for any angle', () => {
    fc.assert(
      fc.property(fc.double({ min: -1e6, max: 1e6, noNaN: true }), (angle) => {
        expect(sinDeg(angle) ** 2 + cosDeg(angle) ** 2).toBeWithin(1, 1e-15);
        expect(sinDeg(-angle)).toBeWithin(-sinDeg(angle), 1e-15);
        expect(cosDeg(-angle)).toBeWithin(cosDeg(angle), 1e-15);
      }),
      { seed: 41, numRuns: 300 },
    );
  });
});

describe('directionDeg', () => {
  test('goes from 0 up to, not including, 360; 0 at the origin', () => {
    expect([directionDeg(0, 1), directionDeg(2, 0), directionDeg(0, -3), directionDeg(-4, 0)]).toEqual([
      0, 90, 180, 270,
    ]);
    expect(directionDeg(0, 0)).toBe(0);
    expect(directionDeg(-1e-20, 1)).toBe(0);
  });
});
