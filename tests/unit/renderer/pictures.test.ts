import { describe, expect, it } from 'vitest';
import { contourPaths } from '../../../renderer/canvas/contour-lines';
import { cssOf, enlarged, partOfPhoto, photoPlaceOf, wholePhoto } from '../../../renderer/canvas/photo-view';
import { panned, rulerMarks, wholeWindow, zoomed } from '../../../renderer/canvas/viewport';
import { firstCorners, keptInPhoto, lengthOfText } from '../../../renderer/views/outline/draft';
import { profileAlong } from '../../../core/display/profile';

const numbers = (path: string): number[] => path.match(/-?[\d.]+/g)!.map(Number);

describe('contourPaths', () => {
  it('[SC5] a ramp is crossed by one straight line at its level, between cell centres', () => {
    const values = Float32Array.from({ length: 5 * 3 }, (_, i) => i % 5);
    const path = contourPaths({ width: 5, height: 3, values }, [7, 1.25])[1];
    expect(numbers(path)).toEqual([1.75, 0.5, 1.75, 1.5, 1.75, 1.5, 1.75, 2.5]);
  });

  it('[SC5] a round hill gives points at its radius, a cell without a value ends the line, a flat field has none', () => {
    const size = 41;
    const values = Float32Array.from({ length: size * size }, (_, i) =>
      Math.hypot((i % size) + 0.5 - 20.5, Math.floor(i / size) + 0.5 - 20.5),
    );
    const path = numbers(contourPaths({ width: size, height: size, values }, [12])[0]);
    for (let i = 0; i < path.length; i += 2) {
      // Between two centres a cone is bent by less than a hundredth of a cell.
      expect(Math.hypot(path[i] - 20.5, path[i + 1] - 20.5)).toBeWithin(12, 0.02);
    }
    const whole = path.length;
    values[20 * size + 32] = NaN;
    expect(numbers(contourPaths({ width: size, height: size, values }, [12])[0]).length).toBeLessThan(whole);
    expect(contourPaths({ width: 3, height: 3, values: new Float32Array(9) }, [1])).toEqual(['']);
  });
});

describe('photo view', () => {
  it('[SC6] a place on screen and back is the same place, before and after enlarging about it', () => {
    const fit = wholePhoto({ width: 4000, height: 3000 }, { width: 720, height: 500 });
    const [x, y] = cssOf(fit, [1234.25, 987.5]);
    const nearer = enlarged(fit, x, y, 3);
    expect(photoPlaceOf(nearer, x, y)[0]).toBeWithin(1234.25, 1e-9);
    expect(cssOf(nearer, [1234.25, 987.5])[1]).toBeWithin(y, 1e-9);
    const corners = [
      [1000, 1200],
      [2000, 1210],
      [1990, 1400],
      [1005, 1390],
    ] as const;
    const view = partOfPhoto(corners, { width: 720, height: 500 });
    for (const corner of corners) {
      const [left, top] = cssOf(view, corner);
      expect(left > 0 && left < 720 && top > 0 && top < 500).toBe(true);
    }
  });
});

describe('viewport', () => {
  const size = { widthMm: 92, heightMm: 18 };
  it('[SC7] enlarging keeps the place under the pointer and the proportions; nothing outside the window is shown', () => {
    const at = { xMm: 30, yMm: 6 };
    const view = zoomed(wholeWindow(size), size, at, 4);
    expect((at.xMm - view.leftMm) / view.widthMm).toBeWithin(30 / 92, 1e-12);
    expect(view.widthMm / view.heightMm).toBeWithin(92 / 18, 1e-12);
    expect(zoomed(view, size, at, 1e-6)).toEqual(wholeWindow(size));
    const moved = panned(view, size, 1000, -1000);
    expect([moved.leftMm + moved.widthMm, moved.topMm]).toEqual([92, 0]);
  });

  it('[SC7] ruler marks are round and no more than asked for', () => {
    expect(
      rulerMarks(0, 92, 10)
        .filter(({ isNamed }) => isNamed)
        .map(({ atMm }) => atMm),
    ).toEqual([0, 10, 20, 30, 40, 50, 60, 70, 80, 90]);
    expect(rulerMarks(12.4, 5.6, 10).filter(({ isNamed }) => isNamed)[0].atMm).toBe(13);
  });
});

describe('outline draft', () => {
  it('[SC8] a corner stays inside the photo and on the quarter of a pixel', () => {
    expect(keptInPhoto([-3, 412.13], 400, 300)).toEqual([0, 300]);
    expect(keptInPhoto([17.37, 41.9], 400, 300)).toEqual([17.25, 42]);
  });

  it('[SC8] corners begin as set, else as measured, else in the middle of the photo', () => {
    const photo = { settings: { window: { cornersPx: null } }, reading: null } as never;
    const [[left, top], , [right, bottom]] = firstCorners(photo, 400, 300);
    expect([left, top, right, bottom]).toEqual([100, 120, 300, 180]);
  });

  it('[SC8] a length is a number of 2 to 2000 mm, with a point or a comma', () => {
    expect(['92', ' 92,5 ', '1.5', '0', '-4', 'wide', '', '1e9'].map(lengthOfText)).toEqual([
      92,
      92.5,
      null,
      null,
      null,
      null,
      null,
      null,
    ]);
  });
});

describe('profileAlong', () => {
  it('[SC9] the mean of the glow in a band of 3 mm; no value where there is no glow', () => {
    const values = new Float32Array(3 * 20).fill(2);
    for (let row = 0; row < 20; row++) values[row * 3 + 1] = NaN;
    values[10 * 3 + 2] = 14; // one cell of the 12 in the band
    const [first, gap, last] = profileAlong({ width: 3, height: 20, values }, 2, 2.5, 'across');
    expect([first, gap.ratio, last.ratio]).toEqual([{ alongMm: 0.125, ratio: 1 }, null, 1.5]);
  });
});
