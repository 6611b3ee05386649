import { describe, expect, it } from 'vitest';
import type { Corners } from '../../../../core/base/points';
import type { OutlineShape } from '../../../../core/contract/outline';
import { frameDistancePx } from '../../../../core/reading/checks/frame-distance';
import { homographyFromCorners } from '../../../../core/window/homography';

const photo = { widthPx: 800, heightPx: 500 };
/** 60 x 30 mm at 10 px a mm from (column, row). */
const at = (column: number, row: number): Corners => [
  { column, row },
  { column: column + 600, row },
  { column: column + 600, row: row + 300 },
  { column, row: row + 300 },
];
const distance = (shape: OutlineShape, corners: Corners): number => {
  const spec = { shape, widthMm: 60, heightMm: 30 };
  return frameDistancePx(spec, homographyFromCorners(corners, 60, 30), photo);
};

describe('frameDistancePx', () => {
  it.each([
    ['left', at(7, 90), 7],
    ['top', at(90, 3), 3],
    ['right', at(186, 90), 14],
    ['bottom', at(90, 189), 11],
    ['beyond the left', at(-1.5, 90), -1.5],
    ['beyond the bottom', at(90, 201.2), -1.2],
  ])('[CK4] a rectangle near the %s edge', (_, corners, expected) => {
    // Rounding of the homography.
    expect(distance({ kind: 'rectangle' }, corners)).toBeWithin(expected, 1e-9);
  });

  it('[CK4] one corner of a tilted window is enough', () => {
    const corners = at(90, 90).map((corner, i) =>
      i === 2 ? { column: 799.4, row: 371 } : corner,
    ) as unknown as Corners;
    expect(distance({ kind: 'rectangle' }, corners)).toBeWithin(0.6, 1e-9);
  });

  it('[CK4] a round window whose box leaves the photo, but not its rim, is whole', () => {
    // Turned by 45 degrees: the box's top-left corner lies 38 px outside, the rim 50 px inside.
    const corners: Corners = [
      { column: 400, row: -38 },
      { column: 640, row: 202 },
      { column: 400, row: 442 },
      { column: 160, row: 202 },
    ];
    expect(distance({ kind: 'rectangle' }, corners)).toBeWithin(-38, 1e-9);
    // A circle of radius 240 / sqrt 2 about (400, 202).
    expect(distance({ kind: 'ellipse' }, corners)).toBeWithin(202 - 240 / Math.SQRT2, 0.1);
  });

  it('[CK4] what a cover hides may leave the photo', () => {
    const low = at(90, 230);
    expect(distance({ kind: 'ellipse' }, low)).toBeWithin(-30, 0.1);
    const cutMm = [
      { xMm: 0, yMm: 0 },
      { xMm: 60, yMm: 0 },
      { xMm: 60, yMm: 20 },
      { xMm: 0, yMm: 20 },
    ];
    // The rim is followed in steps of 2 degrees: the last point above the cut lies up to half a mm higher.
    expect(distance({ kind: 'ellipse', cutMm }, low)).toBeWithin(500 - 230 - 200, 5);
  });

  it('[CK4] a polygon is judged by its own points', () => {
    const pointsMm = [
      { xMm: 10, yMm: 5 },
      { xMm: 55, yMm: 6 },
      { xMm: 30, yMm: 28 },
    ];
    expect(distance({ kind: 'polygon', pointsMm }, at(90, -2))).toBeWithin(48, 1e-9);
  });
});
