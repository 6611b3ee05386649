import { describe, expect, it } from 'vitest';
import { createMask, createPlane } from '../../../core/base/plane';
import { cellNoise } from '../../../core/reading/cell-noise';
import { seededRandom } from '../../support/seeded-random';

/** A spot of light with normal noise (sum of twelve uniform numbers) of a known share. */
function noisyPlane(share: number) {
  const random = seededRandom(41);
  const plane = createPlane(240, 72);
  for (let i = 0; i < plane.values.length; i++) {
    const [x, y] = [i % 240, Math.floor(i / 240)];
    const normal = Array.from({ length: 12 }, random).reduce((sum, value) => sum + value, -6);
    plane.values[i] = (1 + Math.exp(-((x - 90) ** 2 + (y - 30) ** 2) / 900)) * (1 + share * normal);
  }
  return plane;
}

describe('cellNoise', () => {
  // The blur by 2 cells takes 2 % away, and 17 280 cells give the spread to 1 %.
  it.each([0.004, 0.03, 0.11])('[UN5] finds %f of noise on a spot of light within 6 %', (share) => {
    expect(cellNoise(noisyPlane(share), createMask(240, 72, 1), 4)).toBeWithin(share, 0.06 * share);
  });

  it('[UN5] a smooth spot has next to none, dark cells and too few cells none', () => {
    expect(cellNoise(noisyPlane(0), createMask(240, 72, 1), 4)).toBeLessThan(0.003);
    expect(cellNoise(createPlane(9, 7), createMask(9, 7, 1), 4)).toBe(0);
    expect(cellNoise(createPlane(3, 5, 0.4), createMask(3, 5, 1), 4)).toBe(0);
  });

  it('[UN5] edges of print that were left over hardly count', () => {
    const plane = noisyPlane(0.02);
    for (let i = 0; i < plane.values.length; i += 401) plane.values[i] *= 0.3;
    expect(cellNoise(plane, createMask(240, 72, 1), 4)).toBeWithin(0.02, 0.008); // against 0.2 of a plain deviation
  });
});
