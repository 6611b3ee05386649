import { describe, expect, it } from 'vitest';
import { AppError } from '../../../core/base/errors';
import type { Corners } from '../../../core/base/points';
import { assumedSize, checkCorners, viewShare } from '../../../core/window/corners';

const of = (...places: [number, number][]) => places.map(([column, row]) => ({ column, row })) as unknown as Corners;

/** The AppError that checking these corners in a 400 x 300 photo gives. */
function errorOf(corners: Corners): AppError | null {
  try {
    checkCorners(corners, 400, 300);
    return null;
  } catch (error) {
    if (error instanceof AppError) return error;
    throw error;
  }
}

describe('checkCorners', () => {
  it.each([
    ['CORNERS_CROSSING', of([20, 30], [350, 25], [15, 210], [340, 220])],
    ['CORNERS_CROSSING', of([20, 30], [340, 220], [350, 25], [15, 210])],
    ['CORNERS_MIRRORED', of([20, 30], [15, 210], [340, 220], [350, 25])],
    ['CORNERS_OUTSIDE', of([20, 30], [403, 25], [340, 220], [15, 210])],
    ['CORNERS_OUTSIDE', of([20, -2.5], [350, 25], [340, 220], [15, 210])],
    ['CORNERS_TOO_SMALL', of([20, 30], [350, 25], [350.5, 27], [15, 210])],
    ['CORNERS_TOO_SMALL', of([50, 50], [50, 50], [50, 50], [50, 50])],
    ['CORNERS_TOO_SHARP', of([20, 30], [300, 35], [390, 220], [240, 210])],
    ['CORNERS_NOT_CONVEX', of([20, 30], [350, 25], [100, 80], [15, 260])],
  ])('[WN4] answers %s with a remedy', (code, corners) => {
    const error = errorOf(corners);
    expect([error?.kind, error?.code]).toEqual(['outline', code]);
    expect(error?.remedy.length).toBeGreaterThan(20);
  });

  it('[WN4] accepts windows seen from the side, on their head, and up to 2 px outside', () => {
    for (const corners of [
      of([20, 30], [350, 25], [340, 220], [15, 210]),
      of([340, 220], [15, 210], [20, 30], [350, 25]),
      of([-2, 30], [402, 25], [340, 220], [15, 210]),
    ]) {
      expect(errorOf(corners)).toBeNull();
    }
  });

  it('[WN4] the limit of sharpness is 40 degrees', () => {
    // A parallelogram: its sharp angles are atan2(height, shift).
    const sheared = (shift: number) => of([100 + shift, 50], [300 + shift, 50], [300 - shift, 130], [100 - shift, 130]);
    const halfShift = (deg: number) => 40 / Math.tan((deg * Math.PI) / 180);
    expect(errorOf(sheared(halfShift(39.5)))?.code).toBe('CORNERS_TOO_SHARP');
    expect(errorOf(sheared(halfShift(40.5)))).toBeNull();
  });
});

describe('assumedSize', () => {
  it('[WN5] is 60 mm wide with the mean side ratio', () => {
    const size = assumedSize(of([10, 20], [210, 20], [230, 70], [10, 60]));
    const across = 200 + Math.hypot(220, 10);
    const down = 40 + Math.hypot(20, 50);
    expect(size.widthMm).toBe(60);
    expect(size.heightMm).toBeWithin((60 * down) / across, 1e-9);
  });
});

describe('viewShare', () => {
  it('[WN6] is width over frame width in a landscape photo, and the same photo on end gives the same', () => {
    const corners = of([100, 200], [1100, 180], [1120, 620], [90, 600]);
    expect(viewShare(corners, 2000, 1500)).toBeWithin(1030 / 2000, 1e-12);
    const onEnd = of([900, 90], [880, 1120], [1300, 1100], [1320, 100]);
    expect(viewShare(onEnd, 1500, 2000)).toBeWithin(1030 / 2000, 1e-12);
  });
});
