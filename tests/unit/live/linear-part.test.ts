import { describe, expect, it } from 'vitest';
import type { LinearPhoto } from '../../../core/base/linear-photo';
import { holdsWindow, linearPartOf, partForWindow } from '../../../core/live/linear-part';
import { corners, drawPart, photo } from './draw-part';

/** Light that counts up, so that every block has its own mean. */
function countedPhoto(width: number, height: number): LinearPhoto {
  return {
    region: { column: 40, row: 20, width, height },
    widthPx: 200,
    heightPx: 100,
    rgb: Float32Array.from({ length: 3 * width * height }, (_, i) => i),
    flags: new Uint8Array(width * height),
    colourSpace: 'sRGB',
    colourSpaceAssumed: true,
    response: 'unknown',
  };
}

describe('linearPartOf', () => {
  it('[LV1] a region that is small enough goes out as it is', () => {
    const linear = countedPhoto(6, 4);
    const part = linearPartOf(linear, 24);
    expect(part).toEqual({ region: linear.region, reducedBy: 1, width: 6, height: 4, rgb: linear.rgb });
  });

  it('[LV1] blocks become their mean in linear light, channel by channel; what is left over is dropped', () => {
    const linear = countedPhoto(7, 5);
    const part = linearPartOf(linear, 9);
    expect(part).toMatchObject({
      region: { column: 40, row: 20, width: 6, height: 4 },
      reducedBy: 2,
      width: 3,
      height: 2,
    });
    const mean = (column: number, row: number, channel: number): number => {
      const at = (c: number, r: number): number => 3 * (7 * r + c) + channel;
      const [c, r] = [2 * column, 2 * row];
      return (at(c, r) + at(c + 1, r) + at(c, r + 1) + at(c + 1, r + 1)) / 4;
    };
    const expected = [0, 1].flatMap((row) => [0, 1, 2].flatMap((column) => [0, 1, 2].map((c) => mean(column, row, c))));
    expect([...part.rgb]).toEqual(expected);
    expect(linear.rgb[5]).toBe(5);
  });

  it('[LV1] never becomes less than a pixel', () => {
    const part = linearPartOf(countedPhoto(50, 2), 1);
    expect(part.height).toBe(1);
    expect(part.rgb.length).toBe(3 * part.width);
  });
});

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
