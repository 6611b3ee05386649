import { describe, expect, it } from 'vitest';
import { createMask, createPlane, type Plane } from '../../../core/base/plane';
import { fillMasked, fillPlanes } from '../../../core/window/fill';

/** 20 x 10 mm at 4 cells a mm, light that falls by 2 % a mm across and rises by 3 % a mm down. */
function slopedLight(): Plane {
  const plane = createPlane(80, 40);
  for (let i = 0; i < plane.values.length; i++) {
    plane.values[i] = 0.4 * Math.exp(-0.02 * ((i % 80) / 4) + 0.03 * (Math.floor(i / 80) / 4));
  }
  return plane;
}

const everywhere = createMask(80, 40, 1);

describe('fillMasked', () => {
  it('[PM6] gives back the light under a mark, and leaves the rest as it is', () => {
    const truth = slopedLight();
    const marked = slopedLight();
    const mask = createMask(80, 40);
    for (let row = 8; row < 30; row++) for (let column = 30; column < 36; column++) mask.values[row * 80 + column] = 1;
    mask.values.forEach((isMark, i) => (marked.values[i] = isMark ? 0.003 : marked.values[i]));
    const before = marked.values.slice();
    const filled = fillMasked(marked, mask, 4, everywhere);
    for (let i = 0; i < truth.values.length; i++) {
      // A mark 1.5 mm wide is filled from sigma 0.4 or 0.64 mm: half a mm of slope, 2 %, at most.
      if (mask.values[i]) expect(filled.values[i] / truth.values[i]).toBeWithin(1, 0.02);
      else expect(filled.values[i]).toBe(truth.values[i]);
    }
    expect(marked.values).toEqual(before);
  });

  it('[PM6] fills marks of any width, and what was not measured; even light stays even', () => {
    const plane = createPlane(80, 40, 0.37);
    const mask = createMask(80, 40);
    for (let row = 0; row < 40; row++) for (let column = 10; column < 80; column++) mask.values[row * 80 + column] = 1;
    plane.values[5] = NaN;
    plane.values[7] = 0;
    plane.values.fill(0.001, 40 * 79);
    const filled = fillMasked(plane, mask, 4, everywhere);
    for (let i = 0; i < 40 * 79; i++) expect(filled.values[i]).toBeWithin(0.37, 1e-4); // float32 blur of ln
  });

  it('[PM6] neither uses nor fills what lies outside, and gives NaN when nothing is known', () => {
    const plane = slopedLight();
    const within = createMask(80, 40);
    for (let row = 0; row < 40; row++) within.values.fill(1, row * 80, row * 80 + 50);
    for (let row = 0; row < 40; row++) plane.values.fill(1e-6, row * 80 + 50, (row + 1) * 80);
    const mask = createMask(80, 40);
    for (let row = 0; row < 40; row++) mask.values.fill(1, row * 80 + 46, row * 80 + 50);
    const filled = fillMasked(plane, mask, 4, within);
    const truth = slopedLight();
    for (let i = 0; i < truth.values.length; i++) {
      if (i % 80 < 50)
        expect(filled.values[i] / truth.values[i]).toBeWithin(1, 0.085); // filled at sigma 1.64 mm: 2 mm of the slope across, 1.3 mm of that down
      else expect(filled.values[i]).toBeNaN();
    }
    expect(fillMasked(plane, everywhere, 4, everywhere).values.every(Number.isNaN)).toBe(true);
  });

  it('[PM6] planes filled together are filled as one by one, known in the same cells or not', () => {
    const mask = createMask(80, 40);
    for (let row = 10; row < 16; row++) mask.values.fill(1, row * 80 + 20, row * 80 + 45);
    const [first, second, third] = [slopedLight(), slopedLight(), slopedLight()];
    second.values.fill(0.8, 0, 900);
    third.values.fill(0, 2000, 2100);
    const together = fillPlanes([first, second, third], mask, 4, everywhere);
    [first, second, third].forEach((plane, i) =>
      expect(together[i].values).toEqual(fillMasked(plane, mask, 4, everywhere).values),
    );
  });
});
