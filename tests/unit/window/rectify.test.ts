import { describe, expect, it } from 'vitest';
import { greenClipped, type LinearPhoto, outsideGamut, redClipped } from '../../../core/base/linear-photo';
import type { Corners } from '../../../core/base/points';
import { homographyFromCorners, windowPointOf } from '../../../core/window/homography';
import { photoRegionFor, rectifyWindow } from '../../../core/window/rectify';

/** A photo whose pixels follow a rule, and whose region starts at (column, row) of a larger picture. */
function photoOf(
  width: number,
  height: number,
  light: (column: number, row: number) => readonly [number, number, number],
  origin = { column: 0, row: 0 },
): LinearPhoto {
  const rgb = new Float32Array(width * height * 3);
  for (let r = 0; r < height; r++) {
    for (let c = 0; c < width; c++) rgb.set(light(c, r), 3 * (r * width + c));
  }
  return {
    region: { ...origin, width, height },
    widthPx: origin.column + width + 50,
    heightPx: origin.row + height + 40,
    rgb,
    flags: new Uint8Array(width * height),
    colourSpace: 'linear sRGB',
    colourSpaceAssumed: false,
    response: 'linear',
  };
}

/** Small fixed-seed generator, 0..1. */
function randomOf(seed: number): () => number {
  let state = seed;
  return () => (state = (state * 48271) % 2147483647) / 2147483647;
}

function box(left: number, top: number, right: number, bottom: number): Corners {
  return [
    { column: left, row: top },
    { column: right, row: top },
    { column: right, row: bottom },
    { column: left, row: bottom },
  ];
}

describe('rectifyWindow', () => {
  it('[WN3] a photo on the map grid comes back unchanged', () => {
    const random = randomOf(7);
    const photo = photoOf(70, 50, () => [random(), random(), random()], { column: 300, row: 120 });
    const before = photo.rgb.slice();
    const corners = box(307, 125, 357, 155);
    const window = rectifyWindow(photo, homographyFromCorners(corners, 5, 3), 5, 3, 10);
    expect([window.red.width, window.red.height]).toEqual([50, 30]);
    [window.red, window.green, window.blue].forEach((plane, channel) => {
      for (let row = 0; row < 30; row++) {
        for (let column = 0; column < 50; column++) {
          const expected = photo.rgb[3 * ((row + 5) * 70 + column + 7) + channel];
          expect(plane.values[row * 50 + column]).toBeWithin(expected, 1e-6); // float32 rounding
        }
      }
    });
    expect(photo.rgb).toEqual(before);
  });

  it('[WN3] each cell is the mean over the pixels that it covers, when the photo is finer', () => {
    const random = randomOf(11);
    const photo = photoOf(40, 24, () => [random(), random(), random()]);
    const window = rectifyWindow(photo, homographyFromCorners(box(4, 4, 36, 20), 8, 4), 8, 4, 1);
    for (const [column, row] of [
      [0, 0],
      [7, 3],
      [3, 2],
    ]) {
      let sum = 0;
      for (let r = 0; r < 4; r++)
        for (let c = 0; c < 4; c++) sum += photo.rgb[3 * ((4 + 4 * row + r) * 40 + 4 + 4 * column + c) + 1];
      expect(window.green.values[row * 8 + column]).toBeWithin(sum / 16, 1e-6); // float32 rounding
    }
  });

  it('[WN3] light that is linear over the photo lands where the homography says, under perspective', () => {
    const photo = photoOf(260, 180, (c, r) => [0.5 + 0.001 * (c + 0.5), 0.2 + 0.002 * (r + 0.5), 0.3]);
    const corners: Corners = [
      { column: 20, row: 30 },
      { column: 240, row: 15 },
      { column: 225, row: 160 },
      { column: 35, row: 140 },
    ];
    const homography = homographyFromCorners(corners, 30, 20);
    const window = rectifyWindow(photo, homography, 30, 20, 4);
    for (const [column, row] of [
      [131, 90],
      [60, 60],
      [210, 130],
    ]) {
      const { xMm, yMm } = windowPointOf(homography, { column, row });
      const cell = Math.floor(yMm * 4) * window.red.width + Math.floor(xMm * 4);
      // A cell spans about 2 px, so the place is known to +-1 px (and +-1 row).
      expect(window.red.values[cell]).toBeWithin(0.5 + 0.001 * column, 0.0012);
      expect(window.green.values[cell]).toBeWithin(0.2 + 0.002 * row, 0.0024);
      expect(window.blue.values[cell]).toBeWithin(0.3, 1e-6);
    }
  });

  it('[WN3] cells beyond the photo are NaN, and only those', () => {
    const photo = photoOf(30, 20, () => [0.1, 0.2, 0.3]);
    const window = rectifyWindow(photo, homographyFromCorners(box(-4, 0, 26, 20), 15, 10), 15, 10, 1);
    for (let row = 0; row < 10; row++) {
      for (let column = 0; column < 15; column++) {
        const value = window.red.values[row * 15 + column];
        if (column < 2) expect(value).toBeNaN();
        else expect(value).toBeWithin(0.1, 1e-6);
      }
    }
  });

  it('[WN3] a cell is the same whether the photo ends beside its window or reaches far beyond it', () => {
    const random = randomOf(3);
    const whole = photoOf(130, 90, () => [random(), random(), random()]);
    const [from, to] = [30, 100];
    const cut: LinearPhoto = { ...whole, region: { column: from, row: 0, width: to - from, height: 90 } };
    const rows = Array.from({ length: 90 }, (_, row) => [
      ...whole.rgb.subarray(3 * (130 * row + from), 3 * (130 * row + to)),
    ]);
    const corners: Corners = [
      { column: 12, row: 10 },
      { column: 118, row: 4 },
      { column: 110, row: 82 },
      { column: 20, row: 77 },
    ];
    const homography = homographyFromCorners(corners, 24, 16);
    const full = rectifyWindow(whole, homography, 24, 16, 2).green.values;
    const part = rectifyWindow({ ...cut, rgb: Float32Array.from(rows.flat()) }, homography, 24, 16, 2).green.values;
    const seen = [...part.keys()].filter((i) => !Number.isNaN(part[i]));
    expect(full.includes(NaN)).toBe(false);
    expect(seen.length).toBeGreaterThan(0.5 * full.length);
    expect(seen.length).toBeLessThan(0.8 * full.length);
    // Cells with a sample in the outermost half pixel see the edge repeated.
    const differing = seen.filter((i) => Math.abs(part[i] - full[i]) > 1e-6);
    expect(differing.length).toBeLessThan(2 * 32 + 1);
  });

  it('[WN3] a clipped pixel marks the cells that sample it, channel by channel', () => {
    const photo = photoOf(30, 20, () => [0.1, 0.2, 0.3]);
    photo.flags[9 * 30 + 12] = redClipped | outsideGamut;
    photo.flags[3 * 30 + 5] = greenClipped;
    const window = rectifyWindow(photo, homographyFromCorners(box(0, 0, 30, 20), 15, 10), 15, 10, 1);
    const marked = (values: Uint8Array) => [...values.keys()].filter((i) => values[i] === 1);
    expect(marked(window.redClipped.values)).toEqual([4 * 15 + 6]);
    expect(marked(window.outsideGamut.values)).toEqual([4 * 15 + 6]);
    expect(marked(window.greenClipped.values)).toEqual([1 * 15 + 2]);
    expect(marked(window.blueClipped.values)).toEqual([]);
  });
});

describe('photoRegionFor', () => {
  it('[WN3] holds the corners with their margin, cut to the photo', () => {
    const corners: Corners = [
      { column: 10.4, row: 20.6 },
      { column: 95.2, row: 18.3 },
      { column: 99.7, row: 61.1 },
      { column: 8.9, row: 58 },
    ];
    expect(photoRegionFor(corners, 400, 300, 3)).toEqual({ column: 5, row: 15, width: 98, height: 50 });
    expect(photoRegionFor(corners, 98, 60, 30)).toEqual({ column: 0, row: 0, width: 98, height: 60 });
  });
});
