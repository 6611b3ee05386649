import { describe, expect, it } from 'vitest';
import { createMask, createPlane, type Mask } from '../../../core/base/plane';
import { withCarriedPrint } from '../../../core/reading/carried-print';
import type { PrintMask, RectifiedWindow } from '../../../core/window/rectified';

const width = 120;
const height = 60;

/** Upright bars, [from, to) in cells. */
function bars(...places: readonly (readonly [number, number])[]): Mask {
  const mask = createMask(width, height);
  for (const [from, to] of places)
    for (let row = 20; row < 40; row++) mask.values.fill(1, row * width + from, row * width + to);
  return mask;
}

const maskOf = (dark: Mask, red: Mask): PrintMask => ({ dark, red, covered: createMask(width, height) });
const window: RectifiedWindow = {
  pxPerMm: 10,
  widthMm: 12,
  heightMm: 6,
  red: createPlane(width, height, 0.5),
  green: createPlane(width, height, 0.5),
  blue: createPlane(width, height, 0.5),
} as RectifiedWindow;

const cellsOf = (mask: Mask): number => mask.values.reduce((sum, value) => sum + value, 0);

describe('withCarriedPrint', () => {
  const red = bars([60, 66]);
  const own = maskOf(bars([10, 16], [62, 65], [90, 100]), bars());
  const carried = { mask: maskOf(bars([12, 19]), red), from: 'reference' as const };

  it('[PM10] own marks stay where the other photo has print, with their own edges; a shadow does not', () => {
    const { dark } = withCarriedPrint(own, carried, window);
    expect(dark).toEqual(bars([10, 16]));
  });

  it('[PM10] red marks are those of the other photo, and count as covered; own dark marks there are no dark print', () => {
    const print = withCarriedPrint(own, carried, window);
    expect(print.red).toBe(red);
    for (const mask of [print.dark, print.red]) {
      mask.values.forEach((value, i) => value && expect(print.covered.values[i]).toBe(1));
    }
    // Widened, but nothing near the shadow at 90.
    expect(cellsOf(print.covered)).toBeGreaterThan(cellsOf(print.dark) + cellsOf(print.red));
    expect(print.covered.values[30 * width + 95]).toBe(0);
  });

  it('[PM10] a print photo is taken as it is', () => {
    const printPhoto = { ...carried, from: 'printPhoto' as const };
    expect(withCarriedPrint(own, printPhoto, window)).toBe(printPhoto.mask);
  });
});
