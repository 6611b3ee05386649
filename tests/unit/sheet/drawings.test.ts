import { describe, expect, it } from 'vitest';
import type { Plane } from '../../../core/base/plane';
import type { DrawnItem, Drawing } from '../../../core/sheet/drawing';
import { lampDrawing } from '../../../core/sheet/lamp-drawing';
import { sheetContent } from '../../../core/sheet/make-content';
import { layOutPictures, scaleText } from '../../../core/sheet/picture-layout';
import { profileThrough } from '../../../core/sheet/profile';
import { sheetWidthMm } from '../../../core/sheet/sheet-content';
import { drawingsOf, picturesIn } from '../../support/sheet-pictures';
import { larkfieldSource } from '../../support/sheet-source';

const planeOf = (width: number, height: number, valueAt: (c: number, r: number) => number): Plane => ({
  width,
  height,
  values: Float32Array.from({ length: width * height }, (_, i) => valueAt(i % width, Math.floor(i / width))),
});

const textsIn = ({ items }: Drawing): Extract<DrawnItem, { kind: 'text' }>[] =>
  items.filter((item) => item.kind === 'text');

describe('layOutPictures', () => {
  it('[RS3] any window fits on the sheet, its sides in proportion, whatever is beside it', () => {
    for (const size of [
      [92, 18],
      [38, 38],
      [2, 2],
      [1000, 1000],
      [1000, 2],
      [2, 1000],
      [18, 92],
    ] as const) {
      // prettier-ignore
      for (const count of [1, 2]) {
        const { widthMm, heightMm, scale, places, blockHeightMm } = layOutPictures(size, count);
        expect(widthMm / heightMm).toBeCloseTo(size[0] / size[1], 9);
        expect(widthMm).toBeCloseTo(size[0] * scale, 9);
        expect(places).toHaveLength(count);
        for (const [x] of places) expect(x >= 0 && x + widthMm <= sheetWidthMm).toBe(true);
        expect(blockHeightMm).toBeLessThan(125);
      }
    }
  });

  it('[RS3] long windows stand under one another, others side by side', () => {
    expect(layOutPictures([92, 18], 2)).toMatchObject({ isStacked: true, scale: 1.6 });
    expect(layOutPictures([38, 38], 2)).toMatchObject({ isStacked: false, scale: 1.8 });
    expect([scaleText(1.6), scaleText(1), scaleText(0.5)]).toEqual(['1.6 : 1', '1 : 1', '1 : 2']);
  });
});

describe('drawings of a window', () => {
  const drawings = drawingsOf(sheetContent(larkfieldSource()));
  const withPictures = drawings.filter((drawing) => picturesIn(drawing).length > 0);

  it('[RS3] before and after have one size in every kind of picture', () => {
    expect(withPictures).toHaveLength(6);
    for (const drawing of withPictures.slice(0, 3)) {
      const pictures = picturesIn(drawing);
      expect(pictures.map(({ picture }) => picture.split(' ')[0])).toEqual(['before', 'after']);
      for (const { widthMm, heightMm } of pictures) {
        expect(widthMm).toBeCloseTo(92 * 1.6, 9);
        expect(heightMm).toBeCloseTo(18 * 1.6, 9);
      }
    }
  });

  it('[RS4] maps have one printed scale for both sides, with limits that do not depend on the photo', () => {
    const [, luminance, unevenness] = withPictures;
    const labels = (drawing: Drawing): string[] => textsIn(drawing).map(({ text }) => text);
    expect(labels(luminance).filter((text) => text.endsWith('×'))).toEqual([
      '0.33×',
      '0.5×',
      '0.7×',
      '1×',
      '1.4×',
      '2×',
      '3×', // prettier-ignore
    ]);
    expect(labels(unevenness).filter((text) => text.endsWith('%') || text === 'unseen')).toHaveLength(5);
  });

  it('[RS4] spots stand on the luminance map where they were measured', () => {
    const [, luminance] = withPictures;
    const after = picturesIn(luminance)[1];
    const ring = luminance.items.find((item) => item.kind === 'ellipse')!;
    expect(ring.centre[0]).toBeCloseTo(after.at[0] + 25.13 * 1.6, 9);
    expect(ring.centre[1]).toBeCloseTo(after.at[1] + 9.8 * 1.6, 9);
  });

  it('[RS5] a window whose pictures stand side by side has a profile downwards beside that across', () => {
    const charts = drawings.filter(({ title }) => title.includes('through its middle'));
    const heads = charts.map((chart) => textsIn(chart).filter(({ text }) => text.startsWith('From ')));
    expect(heads.map((some) => some.map(({ text }) => text))).toEqual([
      ['From left to right'],
      ['From left to right', 'From top to bottom'],
    ]);
    const [first, second] = picturesIn(withPictures[3]);
    expect(heads[1].map(({ at }) => at[0])).toEqual([first.at[0], second.at[0]]);
  });

  it('[RS5] the profile shares its mm with the pictures above it', () => {
    const photo = withPictures[0];
    const chart = drawings.find(({ title }) => title.includes('through its middle'))!;
    const curves = chart.items.filter((item) => item.kind === 'line' && item.points.length > 300);
    expect(curves).toHaveLength(2);
    const [curve] = curves as Extract<DrawnItem, { kind: 'line' }>[];
    const [[first], [last]] = [curve.points[0], curve.points.at(-1)!];
    const { at, widthMm } = picturesIn(photo)[0];
    // A border of 1 mm is no glow; cells are a quarter mm.
    expect(first).toBeCloseTo(at[0] + 1.125 * 1.6, 6);
    expect(last).toBeCloseTo(at[0] + widthMm - 1.125 * 1.6, 6);
  });
});

describe('profileThrough', () => {
  it('[RS5] an even glow is 1 everywhere, at any brightness', () => {
    for (const level of [0.004, 7]) {
      const glow = planeOf(40, 24, () => level);
      for (const way of ['across', 'down'] as const)
        expect(profileThrough(glow, way).every(({ ratio }) => Math.abs(ratio! - 1) < 1e-6)).toBe(true);
    }
  });

  it('[RS5] brighter to the right rises across and stays level downwards; what is no glow is skipped', () => {
    const glow = planeOf(40, 24, (c, r) => (c === 5 || r === 11 ? NaN : 1 + c));
    const across = profileThrough(glow, 'across');
    expect(across).toHaveLength(40);
    expect(across[5]).toEqual({ alongMm: 1.375, ratio: null });
    expect(across[30].ratio! / across[9].ratio!).toBeCloseTo(31 / 10, 5);
    const down = profileThrough(glow, 'down');
    expect(down).toHaveLength(24);
    expect(down[11].ratio).toBeNull();
    expect(down[3].ratio).toBeCloseTo(down[20].ratio!, 6);
  });
});

describe('lampDrawing', () => {
  const window = { name: 'scale', widthMm: 92, heightMm: 18 };
  const lamp = (name: string, positionMm: [number, number, number]) => ({ name, positionMm });
  const rings = (drawing: Drawing | null): readonly (readonly [number, number])[] =>
    drawing!.items.flatMap((item) => (item.kind === 'ellipse' ? [item.centre] : []));

  it('[RS6] lamps stand at their mm in both views, also beside the window', () => {
    const drawing = lampDrawing(window, { name: 'a', lamps: [lamp('left', [-10, 9, 8]), lamp('right', [69, 4, 14])] });
    const [left, right, leftAbove, rightAbove] = rings(drawing);
    const scale = (right[0] - left[0]) / 79;
    expect(right[1] - left[1]).toBeCloseTo(-5 * scale, 9);
    expect(rightAbove[1] - leftAbove[1]).toBeCloseTo(6 * scale, 9);
    expect(leftAbove[0]).toBeCloseTo(left[0], 9);
    for (const [x] of rings(drawing)) expect(x > 0 && x < sheetWidthMm).toBe(true);
  });

  it('[RS6] there is no drawing when no place is recorded', () => {
    expect(lampDrawing(window, { name: 'a', lamps: [{ name: 'left' }] })).toBeNull();
    expect(lampDrawing(window, undefined)).toBeNull();
  });
});
