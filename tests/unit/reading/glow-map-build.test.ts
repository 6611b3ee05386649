import { describe, expect, it } from 'vitest';
import { createMask, createPlane, type Mask, type Plane } from '../../../core/base/plane';
import { buildGlowMap, type GlowMasks } from '../../../core/reading/glow-map-build';
import type { RectifiedWindow } from '../../../core/window/rectified';

const [width, height] = [20, 10];
const usual = { widthMm: 2, heightMm: 1, borderMm: 0, pxPerMm: 4, useGreen: false };

function planeOf(valueAt: (column: number, row: number) => number): Plane {
  const plane = createPlane(width, height);
  for (let i = 0; i < plane.values.length; i++) plane.values[i] = valueAt(i % width, Math.floor(i / width));
  return plane;
}
function maskOf(isIn: (column: number, row: number) => boolean): Mask {
  return { width, height, values: Uint8Array.from(planeOf((c, r) => (isIn(c, r) ? 1 : 0)).values) };
}
function windowOf(
  valueAt: (column: number, row: number) => number,
  over: Partial<RectifiedWindow> = {},
): RectifiedWindow {
  const none = createMask(width, height);
  return {
    pxPerMm: 10,
    widthMm: 2,
    heightMm: 1,
    red: planeOf((c, r) => 0.9 * valueAt(c, r)),
    green: planeOf(valueAt),
    blue: planeOf((c, r) => 0.3 * valueAt(c, r)),
    redClipped: none,
    greenClipped: none,
    blueClipped: none,
    outsideGamut: none,
    ...over,
  };
}
function masksOf(covered: Mask, over: Partial<GlowMasks> = {}): GlowMasks {
  const none = createMask(width, height);
  const erodedWhole = createMask(8, 4, 1);
  return {
    print: { dark: none, red: none, covered },
    outline: createMask(width, height, 1),
    erodedWhole,
    leftOut: none,
    ...over,
  };
}

describe('buildGlowMap', () => {
  it('[LU1] with no print every cell is the area-weighted mean of 2.5 x 2.5 cells, and light is kept', () => {
    const valueAt = (c: number, r: number): number => 0.1 + 0.013 * c + 0.029 * r + (c % 3 === 1 ? 0.2 : 0);
    const window = windowOf(valueAt);
    const before = window.green.values.slice();
    const map = buildGlowMap(window, masksOf(createMask(width, height)), usual);
    const weights = [
      [0, 1], [1, 1], [2, 0.5],
    ] as const; // prettier-ignore
    let expected = 0;
    for (const [c, wc] of weights) for (const [r, wr] of weights) expected += (wc * wr * valueAt(c, r)) / 6.25;
    expect(map.green.values[0]).toBeWithin(expected, 1e-6); // float cells
    const mean = (values: Float32Array): number => values.reduce((sum, value) => sum + value, 0) / values.length;
    expect(mean(map.green.values)).toBeWithin(mean(before), 1e-6);
    expect(map.relLuminance.values[5]).toBeWithin((0.2126 * 0.9 + 0.7152 + 0.0722 * 0.3) * map.green.values[5], 1e-4);
    expect(window.green.values).toEqual(before);
    expect([map.glowShare, map.printFree.values.every(Boolean)]).toEqual([1, true]);
  });

  it('[LU1] print never leaks into the light, and a cell with more than half print is no glow', () => {
    const isPrint = (c: number): boolean => c >= 3 && c < 7;
    const window = windowOf((c) => (isPrint(c) ? 0.001 : 0.4));
    const map = buildGlowMap(window, masksOf(maskOf(isPrint)), usual);
    // Cells cover columns 0-2.5, 2.5-5 (2 of 2.5 print), 5-7.5 (2 print), 7.5-10.
    expect(Array.from(map.glow.values.slice(0, 4))).toEqual([1, 0, 0, 1]);
    for (const value of map.green.values) expect(value).toBeWithin(0.4, 1e-6);
    expect(map.glowShare).toBeWithin(6 / 8, 1e-9);
  });

  it('[LU1] exactly half free is free: of the part inside the outline', () => {
    const map = buildGlowMap(
      windowOf(() => 0.5),
      masksOf(
        maskOf((c, r) => c === 0 && r < 5),
        { outline: maskOf((c) => c !== 1 && c !== 2) },
      ),
      usual,
    );
    // First cell: outline is column 0 alone, all print. Second: columns 3 and 4 of 2.5.
    expect(Array.from(map.printFree.values.slice(0, 2))).toEqual([0, 1]);
    expect(map.green.values[0]).toBeNaN();
    const half = buildGlowMap(
      windowOf(() => 0.5),
      masksOf(maskOf((c, r) => r < 5 && c === 5)),
      usual,
    );
    expect(half.printFree.values[2]).toBe(1); // 1 of 2.5 columns is print
    const most = buildGlowMap(
      windowOf(() => 0.5),
      masksOf(
        maskOf((c, r) => r < 5 && (c === 5 || c === 7)),
        {},
      ),
      usual,
    );
    expect(most.printFree.values[2]).toBe(0); // 1.5 of 2.5
  });

  it('[LU1] left out, unmeasured and outside the shrunk outline are no glow', () => {
    const erodedWhole = createMask(8, 4, 1);
    erodedWhole.values[31] = 0;
    const window = windowOf((c, r) => (c < 3 && r < 3 ? NaN : 0.6));
    const leftOut = maskOf((c, r) => c >= 10 && c < 13 && r >= 5);
    const map = buildGlowMap(window, masksOf(createMask(width, height), { erodedWhole, leftOut }), usual);
    expect([map.glow.values[0], map.glow.values[2 * 8 + 4], map.glow.values[31]]).toEqual([0, 0, 0]);
    expect(map.printFree.values[31]).toBe(1);
    expect(map.glow.values.reduce((sum, value) => sum + value, 0)).toBe(28); // 32 less 1 unmeasured, 2 left out, 1 border
    expect(map.glowShare).toBeWithin(28 / 31, 1e-9);
  });

  it('[LU2] with red clipped, luminance comes from green, scaled where red is whole', () => {
    const isClipped = (c: number): boolean => c >= 10;
    const window = windowOf((c) => 0.2 + 0.02 * c, {
      red: planeOf((c) => (isClipped(c) ? 0.3 : 0.9 * (0.2 + 0.02 * c))),
      redClipped: maskOf(isClipped),
    });
    const truth = buildGlowMap(
      windowOf((c) => 0.2 + 0.02 * c),
      masksOf(createMask(width, height)),
      usual,
    );
    const masks = masksOf(createMask(width, height));
    const fromGreen = buildGlowMap(window, masks, { ...usual, useGreen: true });
    fromGreen.relLuminance.values.forEach((value, i) => expect(value).toBeWithin(truth.relLuminance.values[i], 1e-6));
    expect(buildGlowMap(window, masks, usual).relLuminance.values[7]).toBeLessThan(0.95 * truth.relLuminance.values[7]);
  });

  it('[LU1] masks of another grid stop loudly', () => {
    const masks = masksOf(createMask(width, height), { leftOut: createMask(height, width) });
    expect(() =>
      buildGlowMap(
        windowOf(() => 1),
        masks,
        usual,
      ),
    ).toThrow('shapes differ');
  });
});
