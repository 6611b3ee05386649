import { describe, expect, it } from 'vitest';
import { createMask, createPlane } from '../../../core/base/plane';
import { countGlow } from '../../../core/reading/glow-facts';
import type { RectifiedWindow } from '../../../core/window/rectified';

/** Ten cells in a row: levels of light, and which channels are flagged. */
function windowOf(levels: readonly number[]): RectifiedWindow {
  const width = levels.length;
  const plane = (factor: number) => ({
    ...createPlane(width, 1),
    values: Float32Array.from(levels, (l) => factor * l),
  });
  const mask = (...cells: number[]) => {
    const one = createMask(width, 1);
    for (const cell of cells) one.values[cell] = 1;
    return one;
  };
  return {
    pxPerMm: 10,
    widthMm: width / 10,
    heightMm: 0.1,
    red: plane(1),
    green: plane(1),
    blue: plane(1),
    redClipped: mask(0, 1, 2),
    greenClipped: mask(0),
    blueClipped: mask(5),
    outsideGamut: mask(7, 8),
  };
}

describe('countGlow', () => {
  const levels = [0.99, 0.97, 0.9, 0.5, 0.4, 0.3, 0.2, 0.1, 0.002, NaN];

  it('[GT4] counts shares over the glow alone; what was not measured is no glow', () => {
    expect(countGlow(windowOf(levels), createMask(10, 1, 1))).toEqual({
      cells: 9,
      redClippedShare: 3 / 9,
      greenClippedShare: 1 / 9,
      blueClippedShare: 1 / 9,
      clippedShare: 4 / 9,
      outsideGamutShare: 2 / 9,
      nearBlackShare: 1 / 9, // 0.002 < 8/255/12.92 = 0.00243
      medianRelLuminance: expect.closeTo(0.4, 6), // float32
    });
  });

  it('[GT4] a mask leaves out what it does not hold; no glow gives zeros', () => {
    const glow = createMask(10, 1, 1);
    for (const cell of [0, 1, 2, 8]) glow.values[cell] = 0;
    expect(countGlow(windowOf(levels), glow)).toMatchObject({ cells: 5, redClippedShare: 0, nearBlackShare: 0 });
    expect(countGlow(windowOf(levels), createMask(10, 1))).toMatchObject({ cells: 0, medianRelLuminance: 0 });
  });
});
