import { cv } from 'opencv-wasm';
import { describe, expect, it } from 'vitest';
import { createPlane, type Plane } from '../../../core/base/plane';
import { alignPictures } from '../../../core/registration/align-pictures';
import { slopesOf, sumDerivatives } from '../../../core/registration/derivative-sums';
import { shiftByPhase } from '../../../core/registration/phase-correlation';
import { frameOf, matrixOfWarp, shiftedBy, type Warp } from '../../../core/registration/warp';
import { seededRandom } from '../../support/seeded-random';

const width = 150;
const height = 48;
const frame = frameOf(width, height);
const still = shiftedBy({ columns: 0, rows: 0 }, frame);

/** Soft dots at places of its own, drawn where a bending takes them: no resampling, so that nothing is lost. */
function dots(bend: (x: number, y: number) => readonly [number, number], gain = 1, offset = 0): Plane {
  const random = seededRandom(19);
  const places = Array.from({ length: 90 }, () => bend(width * random(), height * random()));
  const plane = createPlane(width, height);
  for (let i = 0; i < plane.values.length; i++) {
    const [x, y] = [(i % width) + 0.5, Math.floor(i / width) + 0.5];
    let sum = 0;
    for (const [u, v] of places) sum += Math.exp(-((x - u) ** 2 + (y - v) ** 2) / 9);
    plane.values[i] = gain * sum + offset;
  }
  return plane;
}

function bendBy(warp: Warp): (x: number, y: number) => readonly [number, number] {
  const m = matrixOfWarp(warp, frame);
  return (x, y) => {
    const w = m[6] * x + m[7] * y + m[8];
    return [(m[0] * x + m[1] * y + m[2]) / w, (m[3] * x + m[4] * y + m[5]) / w];
  };
}

/** Farthest that two bendings lie apart on the picture's corners, cells. */
function apart(one: Warp, two: Warp): number {
  const corners = [
    [0, 0],
    [width, 0],
    [width, height],
    [0, height],
  ];
  const distances = corners.map(([x, y]) => {
    const [a, b] = [bendBy(one)(x, y), bendBy(two)(x, y)];
    return Math.hypot(a[0] - b[0], a[1] - b[1]);
  });
  return Math.max(...distances);
}

const bent: Warp = [0.012, -0.006, 0.011, 0.007, -0.015, -0.009, 0.008, -0.01];

describe('phase correlation', () => {
  it.each([
    [0, 0],
    [7, -3],
    [-6, 5],
  ])('[RG1] finds a shift of %i columns and %i rows', (columns, rows) => {
    const moved = dots((x, y) => [x + columns, y + rows]);
    expect(
      shiftByPhase(
        dots((x, y) => [x, y]),
        moved,
        8,
      ),
    ).toEqual({ columns, rows });
  });

  it('[RG1] an empty picture gives no shift', () => {
    expect(shiftByPhase(createPlane(20, 10, NaN), createPlane(20, 10, 3), 4)).toEqual({ columns: 0, rows: 0 });
  });
});

describe('the refinement', () => {
  const plain = dots((x, y) => [x, y]);

  it('[RG2] sums are those of derivatives found by small changes', () => {
    const second = slopesOf(plain);
    const { count, g, gr, gw, gg, r, w } = sumDerivatives(plain, second, bent, frame);
    expect(count).toBeGreaterThan(5000);
    for (let i = 0; i < 8; i++) {
      const changed = (by: number): Warp => bent.map((value, at) => (at === i ? value + by : value));
      const [more, less] = [1e-5, -1e-5].map((by) => sumDerivatives(plain, second, changed(by), frame));
      // The bent picture is bilinear and its slopes are half differences: 3 % of the largest is what these allow.
      const bySteps = (more.w - less.w) / 2e-5;
      const scale = Math.sqrt(gg[9 * i] * count);
      expect(Math.abs(g[i] - bySteps) / scale).toBeLessThan(0.03);
      expect(Math.abs(gr[i] - (more.rw - less.rw) / 2e-5) / (scale * 2)).toBeLessThan(0.03);
      expect(Math.abs(gw[i] - (more.ww - less.ww) / 4e-5) / (scale * 2)).toBeLessThan(0.03);
    }
    expect(r / count).toBeCloseTo(w / count, 0);
  });

  it('[RG2] finds a bending to 0.05 cells, whatever brightness and contrast', () => {
    const { warp, correlation } = alignPictures(
      plain,
      slopesOf(dots(bendBy(bent), 0.3, 5)),
      still,
      frame,
      'homography',
    );
    expect(apart(bent, still)).toBeGreaterThan(1.5);
    expect(apart(warp, bent)).toBeLessThan(0.05);
    expect(correlation).toBeGreaterThan(0.99);
  });

  it('[RG2] the shift alone is found to 0.01 cells', () => {
    const shift = shiftedBy({ columns: 0.7, rows: -0.4 }, frame);
    const found = alignPictures(plain, slopesOf(dots(bendBy(shift))), still, frame, 'shift');
    expect(apart(found.warp, shift)).toBeLessThan(0.01);
    expect(found.warp.filter((_, i) => i !== 2 && i !== 5)).toEqual([0, 0, 0, 0, 0, 0]);
  });

  it('[RG2] flat pictures stay where they are, without a correlation', () => {
    const flat = createPlane(width, height, 2);
    const { warp, correlation } = alignPictures(flat, slopesOf(flat), still, frame, 'homography');
    expect(warp).toEqual(still);
    expect(correlation).toBeNaN();
  });
});

describe('beside another implementation', () => {
  it('[RG2] OpenCV finds the same bending from the same pictures', () => {
    const [plain, other] = [dots((x, y) => [x, y]), dots(bendBy(bent))];
    const { warp, correlation } = alignPictures(plain, slopesOf(other), still, frame, 'homography');
    const matrix = new cv.Mat(3, 3, cv.CV_32F);
    const pictures = [plain, other].map(({ values }) => cv.matFromArray(height, width, cv.CV_32F, values));
    const noMask = new cv.Mat();
    try {
      matrix.data32F.set([1, 0, 0, 0, 1, 0, 0, 0, 1]);
      const stop = new cv.TermCriteria(3, 200, 1e-9);
      const reached = cv.findTransformECC(pictures[0], pictures[1], matrix, cv.MOTION_HOMOGRAPHY, stop, noMask, 1);
      // Its pixels have their centres at whole numbers.
      const m = Array.from(matrix.data32F);
      const theirs = (x: number, y: number) => {
        const w = m[6] * (x - 0.5) + m[7] * (y - 0.5) + m[8];
        return [
          (m[0] * (x - 0.5) + m[1] * (y - 0.5) + m[2]) / w + 0.5,
          (m[3] * (x - 0.5) + m[4] * (y - 0.5) + m[5]) / w + 0.5,
        ];
      };
      for (const [x, y] of [
        [5, 5],
        [width - 5, 7],
        [width / 2, height - 5],
      ]) {
        const ours = bendBy(warp)(x, y);
        const their = theirs(x, y);
        // Float32 and 1/32 steps of its bilinear interpolation there.
        expect(Math.hypot(ours[0] - their[0], ours[1] - their[1])).toBeLessThan(0.03);
      }
      // It compares the picture's outermost cells too.
      expect(Math.abs(correlation - reached)).toBeLessThan(0.002);
    } finally {
      [...pictures, matrix, noMask].forEach((mat) => mat.delete());
    }
  });
});
