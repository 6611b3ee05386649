import { describe, expect, it } from 'vitest';
import type { Corners } from '../../../core/base/points';
import { refinedCorners, registerWindow } from '../../../core/registration/register-window';
import { homographyFromCorners } from '../../../core/window/homography';
import { barsOf, drawScale, heightMm, imageOf, lights, movedCorners, placeError, poses, widthMm } from './drawn-scales';

const bars = barsOf(5);
const reference = imageOf(drawScale(poses[0], lights.even, bars), poses[0]);
/** What a registration makes of a photo that was taken from the second place, by corners that may be off. */
function register(photo: ReturnType<typeof drawScale>, corners: Corners) {
  const found = registerWindow(reference, imageOf(photo, corners));
  const homography = homographyFromCorners(corners, widthMm, heightMm);
  return { found, refined: found.passed ? refinedCorners(found, homography, widthMm, heightMm) : corners };
}

describe('the same print', () => {
  it.each(Object.keys(lights))('[RG4] under %s, corners off by 8 px end within 0.1 mm', (name) => {
    const photo = drawScale(poses[1], lights[name], bars);
    for (const seed of [1, 2]) {
      const corners = movedCorners(poses[1], 8, seed);
      const { found, refined } = register(photo, corners);
      expect(found).toMatchObject({ passed: true });
      if (!found.passed) continue;
      expect(placeError(corners, poses[1])).toBeGreaterThan(0.4);
      expect(placeError(refined, poses[1])).toBeLessThan(0.1);
      expect(found.correlation).toBeGreaterThan(0.95);
      expect(found.errorMm).toBeLessThan(0.1);
      expect(found.displacementMm).toBeGreaterThan(0.5);
    }
  });

  it('[RG4] right corners stay where they are', () => {
    const { found, refined } = register(drawScale(poses[1], lights['one spot'], bars), poses[1]);
    expect(found.passed && found.displacementMm).toBeLessThan(0.1);
    expect(placeError(refined, poses[1])).toBeLessThan(0.03);
  });

  it('[RG4] a photo registered to itself gives the identity', () => {
    const found = registerWindow(reference, reference);
    expect(found).toMatchObject({ passed: true, correlation: expect.closeTo(1, 6) as number });
    if (found.passed) expect(found.displacementMm + found.errorMm).toBeLessThan(1e-6);
  });
});

describe('refused, never bent', () => {
  it.each(Object.keys(lights))('[RG4] windows without print, under %s', (name) => {
    const found = registerWindow(reference, imageOf(drawScale(poses[1], lights[name], []), poses[1]));
    expect(found).toMatchObject({ passed: false, reason: 'NO_PRINT' });
  });

  it('[RG4] a reference without print', () => {
    const blank = imageOf(drawScale(poses[0], lights.even, []), poses[0]);
    expect(registerWindow(blank, imageOf(drawScale(poses[1], lights.even, bars), poses[1]))).toMatchObject({
      passed: false,
      reason: 'NO_PRINT',
    });
  });

  it('[RG4] shadows of wires where the print should be', () => {
    const shadows = [8, 19, 33, 41, 52].map((x) => ({ x, y: 0, wide: 1.2, high: 18, lets: 0.6 }));
    const { found } = register(drawScale(poses[1], lights.even, shadows), poses[1]);
    expect(found).toMatchObject({ passed: false, reason: 'NO_MATCH' });
  });

  it('[RG4] another scale of the same size', () => {
    for (const seed of [6, 7]) {
      const { found } = register(drawScale(poses[1], lights['one spot'], barsOf(seed)), poses[1]);
      expect(found).toMatchObject({ passed: false, reason: 'NO_MATCH' });
    }
  });

  it('[RG4] print in one corner of the window only', () => {
    const few = bars.filter(({ x, y }) => x < 18 && y < 8);
    const corner = imageOf(drawScale(poses[0], lights.even, few), poses[0]);
    expect(registerWindow(corner, corner)).toMatchObject({ passed: false, reason: 'NO_PRINT' });
  });

  it('[RG4] corners farther off than any hand sets them', () => {
    const corners = poses[1].map(({ column, row }) => ({ column: column + 25, row })) as unknown as Corners;
    const { found, refined } = register(drawScale(poses[1], lights.even, bars), corners);
    expect(found.passed).toBe(false);
    expect(refined).toBe(corners);
  });
});
