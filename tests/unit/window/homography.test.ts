import { describe, expect, it } from 'vitest';
import type { Corners, PhotoPoint } from '../../../core/base/points';
import {
  homographyFromCorners,
  localScale,
  photoPointOf,
  pxPerMmOf,
  windowPointOf,
} from '../../../core/window/homography';

const at = (column: number, row: number): PhotoPoint => ({ column, row });
const nearby: Corners = [at(100, 200), at(1100, 180), at(1120, 620), at(90, 600)];
const large: Corners = [at(400, 300), at(2600, 420), at(2580, 1310), at(430, 1400)];

describe('homographyFromCorners', () => {
  // Worked examples homography-22 and -23 of the measurement design, own calculation, 3 decimals.
  it.each([
    [nearby, at(600, 400), 31.282, 12.683],
    [nearby, at(300, 500), 13.133, 18.76],
    [large, at(1500, 850), 26.771, 12.168],
  ])('[WN1] gives the worked examples', (corners, point, xMm, yMm) => {
    const found = windowPointOf(homographyFromCorners(corners, 60, 25), point);
    expect(found.xMm).toBeWithin(xMm, 0.0006);
    expect(found.yMm).toBeWithin(yMm, 0.0006);
  });

  it('[WN1] sends the corners to the corners, and back', () => {
    const homography = homographyFromCorners(large, 92, 18);
    const inMm = [
      { xMm: 0, yMm: 0 },
      { xMm: 92, yMm: 0 },
      { xMm: 92, yMm: 18 },
      { xMm: 0, yMm: 18 },
    ];
    large.forEach((corner, i) => {
      const found = windowPointOf(homography, corner);
      expect(found.xMm).toBeWithin(inMm[i].xMm, 1e-9); // rounding only
      expect(found.yMm).toBeWithin(inMm[i].yMm, 1e-9);
    });
    for (const xMm of [-5, 0, 31, 92, 97]) {
      for (const yMm of [-2, 0, 7, 18, 20]) {
        const back = windowPointOf(homography, photoPointOf(homography, { xMm, yMm }));
        expect(back.xMm).toBeWithin(xMm, 1e-8); // rounding only
        expect(back.yMm).toBeWithin(yMm, 1e-8);
      }
    }
  });

  it('[WN1] three corners on a line are a defect of the caller', () => {
    expect(() => homographyFromCorners([at(0, 0), at(5, 5), at(10, 10), at(3, 9)], 4, 3)).toThrow(RangeError);
  });
});

describe('localScale', () => {
  it('[WN2] equals the finite difference of the projection', () => {
    const homography = homographyFromCorners(nearby, 60, 25);
    const here = photoPointOf(homography, { xMm: 17, yMm: 6 });
    const stepMm = 1e-5;
    const right = photoPointOf(homography, { xMm: 17 + stepMm, yMm: 6 });
    const below = photoPointOf(homography, { xMm: 17, yMm: 6 + stepMm });
    const { alongX, alongY } = localScale(homography, { xMm: 17, yMm: 6 });
    // One-sided difference: error of second order, about 1e-6 px/mm.
    expect(alongX).toBeWithin(Math.hypot(right.column - here.column, right.row - here.row) / stepMm, 1e-4);
    expect(alongY).toBeWithin(Math.hypot(below.column - here.column, below.row - here.row) / stepMm, 1e-4);
  });
});

describe('pxPerMmOf', () => {
  it('[WN2] is the scale of the axis that is seen more coarsely', () => {
    const corners: Corners = [at(10, 20), at(610, 20), at(610, 95), at(10, 95)];
    expect(pxPerMmOf(homographyFromCorners(corners, 60, 25), 60, 25)).toBeWithin(3, 1e-9); // 75 px over 25 mm
    expect(pxPerMmOf(homographyFromCorners(corners, 200, 15), 200, 15)).toBeWithin(3, 1e-9); // 600 px over 200 mm
  });
});
