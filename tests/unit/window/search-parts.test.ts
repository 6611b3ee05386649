import { describe, expect, it } from 'vitest';
import type { PhotoPoint } from '../../../core/base/points';
import { strongestDrop } from '../../../core/window/search/edge-search';
import {
  distanceOutside,
  type Ellipse,
  ellipseOfPart,
  ellipsePlaces,
  halfDiameters,
  robustEllipse,
} from '../../../core/window/search/fit-ellipse';
import { areaOf, boxAbout, convexHull, quadAbout, spreadAlong, straightRun } from '../../../core/window/search/hull';
import { gridSampler, lightGrid, photoSampler } from '../../../core/window/search/light-grid';
import { countLookAlikes, plainPatches } from '../../../core/window/search/look-alikes';
import { overlapOf } from '../../../core/window/search/overlap';
import { robustLine } from '../../../core/window/search/robust-line';
import { drawnPhoto } from '../../support/drawn-photo';
import { seededRandom } from '../../support/seeded-random';

const point = (column: number, row: number): PhotoPoint => ({ column, row });
const rectangle = (left: number, top: number, width: number, height: number) => [
  point(left, top),
  point(left + width, top),
  point(left + width, top + height),
  point(left, top + height),
];

describe('reduced light', () => {
  const random = seededRandom(11);
  const photo = drawnPhoto(23, 14, () => [random(), random(), random()], 0);

  it('[WN12] a cell is 0.3 red + 0.5 green + 0.2 blue, mean of its pixels; what does not fill a cell is left out', () => {
    const { light, pxPerCell } = lightGrid(photo, 8);
    expect([light.width, light.height, pxPerCell]).toEqual([7, 4, 3]);
    for (let row = 0; row < 4; row++) {
      for (let column = 0; column < 7; column++) {
        let sum = 0;
        for (let i = 0; i < 9; i++) {
          const at = 3 * ((3 * row + Math.floor(i / 3)) * 23 + 3 * column + (i % 3));
          sum += 0.3 * photo.rgb[at] + 0.5 * photo.rgb[at + 1] + 0.2 * photo.rgb[at + 2];
        }
        // Single precision.
        expect(light.values[row * 7 + column]).toBeWithin(sum / 9, 1e-6);
      }
    }
  });

  it('[WN12] both samplers give a pixel its value at its centre when a cell is a pixel', () => {
    const [coarse, fine] = [gridSampler(lightGrid(photo, 23)), photoSampler(photo)];
    for (const [column, row] of [
      [0.5, 0.5],
      [22.5, 13.5],
      [7.5, 4.5],
      [9.2, 6.8],
      [-3, 20],
    ]) {
      expect(coarse(column, row)).toBeWithin(fine(column, row), 1e-6);
    }
  });
});

describe('hulls', () => {
  it('[WN14] the hull runs clockwise, without inner points and points on its sides', () => {
    const hull = convexHull([...rectangle(2, 3, 8, 5), point(6, 3), point(5, 5), point(2, 4)]);
    expect(hull).toHaveLength(4);
    expect(areaOf(hull)).toBe(40);
  });

  it('[WN14] four sides come back from a window with cut corners, perspective and all', () => {
    const quad = [point(10.5, 20.25), point(91.75, 12), point(88.5, 64.75), point(7.25, 58)];
    const cut = quad.flatMap((corner, i) => {
      const [before, after] = [quad[(i + 3) % 4], quad[(i + 1) % 4]];
      const towards = (other: PhotoPoint) =>
        point(corner.column + 0.06 * (other.column - corner.column), corner.row + 0.06 * (other.row - corner.row));
      return [towards(before), towards(after)];
    });
    const found = quadAbout(convexHull(cut))!;
    for (const corner of quad) {
      const nearest = Math.min(...found.map((one) => Math.hypot(one.column - corner.column, one.row - corner.row)));
      expect(nearest).toBeWithin(0, 1e-9);
    }
  });

  it('[WN14] the box about a turned rectangle is that rectangle', () => {
    const turned = [point(3, 0), point(11, 6), point(8, 10), point(0, 4)];
    expect(areaOf(boxAbout(turned))).toBeWithin(50, 1e-9);
  });

  it('[WN14] the cover of a face is its straight stretch; a full circle has none', () => {
    const circle = ellipsePlaces({ centre: point(50, 60), a: 1 / 900, b: 0, c: 1 / 900 }).map(({ at }) => at);
    expect(straightRun(spreadAlong(circle, 96))).toBeNull();
    const covered = convexHull(circle.map(({ column, row }) => point(column, Math.min(row, 71))));
    const run = straightRun(spreadAlong(covered, 96))!;
    expect(run.from.row).toBeWithin(71, 0.7);
    expect(run.to.row).toBeWithin(71, 0.7);
    expect(run.from.column).toBeGreaterThan(run.to.column);
  });
});

describe('edges', () => {
  it.each([-2.3, 0, 0.41, 3.7])('[WN15] a blurred edge %f px outwards is found to 0.1 px', (edgePx) => {
    const lightAt = (column: number) => 0.7 / (1 + Math.exp((column - 40 - edgePx) / 0.8)) + 0.013;
    const found = strongestDrop(lightAt, { at: point(40, 9), outX: 1, outY: 0 }, 6, 1, (light) => light)!;
    expect(found.offsetPx).toBeWithin(edgePx, 0.1);
  });

  it('[WN15] light that rises outwards is no edge', () => {
    expect(
      strongestDrop(
        (column) => column,
        { at: point(5, 5), outX: 1, outY: 0 },
        3,
        1,
        (light) => light,
      ),
    ).toBeNull();
  });

  it('[WN15] a line holds against a third of the points lying elsewhere', () => {
    const points = Array.from({ length: 30 }, (_, i) => ({
      along: (i + 0.5) / 30,
      offsetPx: i % 3 === 0 ? 9 + (i % 7) : 1.5 - (2.25 * (i + 0.5)) / 30,
    }));
    const line = robustLine(points, 0.3)!;
    expect(line.startPx).toBeWithin(1.5, 0.02);
    expect(line.endPx).toBeWithin(-0.75, 0.02);
    expect(robustLine(points.slice(0, 3), 0.3)).toBeNull();
  });
});

describe('ellipses', () => {
  const ellipse: Ellipse = { centre: point(71.25, 44.5), a: 1 / 1600, b: 0.00021, c: 1 / 625 };
  const rim = ellipsePlaces(ellipse).map(({ at }) => at);

  it('[WN16] the places lie on the ellipse, and half diameters reach it along and conjugate to a direction', () => {
    for (const place of rim) expect(distanceOutside(ellipse, place)).toBeWithin(0, 1e-9);
    const { across, down } = halfDiameters(ellipse, 3, 1);
    const by = ([x, y]: readonly [number, number], [u, v]: readonly [number, number]) =>
      ellipse.a * x * u + ellipse.b * (x * v + y * u) + ellipse.c * y * v;
    expect(by(across, across)).toBeWithin(1, 1e-12);
    expect(by(down, down)).toBeWithin(1, 1e-12);
    expect(by(across, down)).toBeWithin(0, 1e-12);
    expect(across[0] / across[1]).toBeWithin(3, 1e-12);
  });

  it('[WN16] distances are those from a circle, to first order', () => {
    const circle: Ellipse = { centre: point(10, 20), a: 1 / 2500, b: 0, c: 1 / 2500 };
    expect(distanceOutside(circle, point(61, 20))).toBeWithin(1, 0.02);
    expect(distanceOutside(circle, point(10, -28.5))).toBeWithin(-1.5, 0.03);
  });

  it('[WN16] an ellipse comes back from its points, with a quarter of them elsewhere', () => {
    const noisy = rim.map(({ column, row }, i) => (i % 4 === 1 ? point(column + 5, row - 3.5) : point(column, row)));
    const found = robustEllipse(noisy)!;
    expect(found.centre.column).toBeWithin(71.25, 0.15);
    expect(found.centre.row).toBeWithin(44.5, 0.15);
  });

  it('[WN16] a face comes back from the part that a cover leaves, and a rectangle is none', () => {
    const hull = convexHull(rim.map(({ column, row }) => point(column, Math.min(row, 52))));
    const found = ellipseOfPart(spreadAlong(hull, 96))!;
    // A polygon of 96 sides lies 0.05 % inside its ellipse; the rest is the stretch at the cover's ends.
    expect(found.centre.column).toBeWithin(71.25, 0.5);
    expect(found.centre.row).toBeWithin(44.5, 0.5);
    expect(ellipseOfPart(spreadAlong(rectangle(5, 8, 120, 31), 96))).toBeNull();
  });
});

describe('overlaps and look-alikes', () => {
  it('[WN18] overlap as a share of both and of the smaller', () => {
    const a = { left: 0, right: 10, top: 0, bottom: 4 };
    const b = { left: 8, right: 12, top: 1, bottom: 6 };
    expect(overlapOf(a, b)).toEqual({ ofUnion: 6 / 54, ofSmaller: 6 / 20 });
    expect(overlapOf(a, { left: 11, right: 12, top: 0, bottom: 1 })).toEqual({ ofUnion: 0, ofSmaller: 0 });
  });

  it('[WN18] patches of like size elsewhere are counted once each, not the outline itself', () => {
    const region = (left: number, top: number, width: number, height: number, filled = 0.95) => {
      const hull = rectangle(left, top, width, height);
      return { hull, areaPx: areaOf(hull), filled };
    };
    const patches = plainPatches([
      region(10, 10, 30, 20),
      region(60, 10, 31, 21),
      region(61, 11, 30, 20),
      region(110, 12, 29, 19),
      region(10, 60, 60, 20),
      region(110, 60, 30, 20, 0.6),
    ]);
    expect(countLookAlikes(rectangle(10, 10, 30, 20), patches)).toBe(2);
  });
});
