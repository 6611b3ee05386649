import { describe, expect, it } from 'vitest';
import { holdsWindow, partForWindow } from '../../../core/live/linear-part';
import { corners, drawPart, photo } from './draw-part';

describe('partForWindow', () => {
  it('[LV1] keeps one to two pixels a cell, in the photo’s own coordinates', () => {
    const part = drawPart(() => 0.5);
    const size = { widthMm: 60, heightMm: 25 }; // about 20 pixels a mm
    expect(partForWindow(part, corners, size, 10)).toBe(part);
    const less = partForWindow(part, corners, size, 3.8);
    expect(less.reducedBy).toBe(5);
    expect(less.region).toEqual({ column: 0, row: 0, width: 1400, height: 700 });
  });
});

describe('holdsWindow', () => {
  const whole = { column: 0, row: 0, width: 1400, height: 700 };

  it('[LV1] wants every corner inside, up to one pixel of the part and to what lies outside the photo', () => {
    const holds = (region = whole, at = corners, reducedBy = 1): boolean =>
      holdsWindow({ region, reducedBy }, at, photo);
    expect(holds()).toBe(true);
    expect(holds({ ...whole, column: 102 })).toBe(false);
    expect(holds({ ...whole, column: 102 }, corners, 2)).toBe(true);
    expect(holds({ ...whole, height: 608 })).toBe(false);
    expect(holds(whole, [{ column: -2, row: -2 }, corners[1], corners[2], corners[3]])).toBe(true);
  });
});
