import { describe, expect, it } from 'vitest';
import { clampRegion, cutUpright, uprightSize } from '../../../core/node/decode/upright';

/** Where stored (column, row) stands upright. @source Exif 2.32, tag 274, written out by hand */
const uprightPlaces: Readonly<Record<number, (c: number, r: number, w: number, h: number) => [number, number]>> = {
  1: (c, r) => [c, r],
  2: (c, r, w) => [w - 1 - c, r],
  3: (c, r, w, h) => [w - 1 - c, h - 1 - r],
  4: (c, r, _, h) => [c, h - 1 - r],
  5: (c, r) => [r, c],
  6: (c, r, _, h) => [h - 1 - r, c],
  7: (c, r, w, h) => [h - 1 - r, w - 1 - c],
  8: (c, r, w) => [r, w - 1 - c],
};

describe('cutUpright', () => {
  for (const [width, height] of [
    [5, 3],
    [1, 1],
    [2, 7],
  ] as const) {
    it.each([1, 2, 3, 4, 5, 6, 7, 8])(
      `[PX8] every pixel of ${width} x ${height} keeps its place, orientation %i`,
      (turn) => {
        const samples = Uint16Array.from({ length: width * height * 4 }, (_, i) => 1000 + 7 * i);
        const before = samples.slice();
        const size = uprightSize(width, height, turn);
        const whole = clampRegion(null, size.width, size.height);
        const pixels = { width, height, channels: 4, samples };
        const codes = cutUpright(pixels, whole, turn, [0, 1, 2]);
        const inks = cutUpright(pixels, whole, turn, [0, 1, 2, 3]);
        for (let row = 0; row < height; row++) {
          for (let column = 0; column < width; column++) {
            const [c, r] = uprightPlaces[turn](column, row, width, height);
            const stored = 4 * (row * width + column);
            const at = r * size.width + c;
            expect([...codes.slice(3 * at, 3 * at + 3)]).toEqual([...samples.slice(stored, stored + 3)]);
            expect([...inks.slice(4 * at, 4 * at + 4)]).toEqual([...samples.slice(stored, stored + 4)]);
          }
        }
        expect(samples).toEqual(before);
      },
    );
  }

  it('[PX8] grey is repeated, its transparency dropped', () => {
    const pixels = { width: 2, height: 1, channels: 2, samples: Uint8Array.of(9, 200, 77, 100) };
    expect([...cutUpright(pixels, clampRegion(null, 2, 1), 2, [0, 0, 0])]).toEqual([77, 77, 77, 9, 9, 9]);
  });
});

describe('clampRegion', () => {
  it('[PX8] whole pixels that hold the region, within the photo, never none', () => {
    expect(clampRegion({ column: 1.2, row: 3.9, width: 2.1, height: 1.3 }, 20, 10)).toEqual({
      column: 1,
      row: 3,
      width: 3,
      height: 3,
    });
    expect(clampRegion({ column: -3, row: 8, width: 5, height: 30 }, 20, 10)).toEqual({
      column: 0,
      row: 8,
      width: 2,
      height: 2,
    });
    expect(clampRegion({ column: 90, row: -50, width: 5, height: 6 }, 20, 10)).toEqual({
      column: 19,
      row: 0,
      width: 1,
      height: 1,
    });
  });
});
