import { describe, expect, it } from 'vitest';
import { createMask, createPlane, type Mask, type Plane } from '../../../core/base/plane';
import { aboveWithHysteresis, closeGrey, dilateMask, openByTwo } from '../../../core/window/morphology';
import { seededRandom } from '../../support/seeded-random';

/** A plane or mask from lines of text: '.' = 0, digits as they are. */
function maskOf(...lines: string[]): Mask {
  const values = Uint8Array.from(lines.join(''), (sign) => (sign === '.' ? 0 : 1));
  return { width: lines[0].length, height: lines.length, values };
}

function textOf({ width, height, values }: Mask): string[] {
  return Array.from({ length: height }, (_, row) =>
    [...values.subarray(row * width, (row + 1) * width)].map((value) => (value ? '#' : '.')).join(''),
  );
}

function randomPlane(width: number, height: number, seed: number): { plane: Plane; mask: Mask } {
  let state = seed;
  const random = () => (state = (state * 48271) % 2147483647) / 2147483647;
  const plane = createPlane(width, height);
  const mask = createMask(width, height);
  for (let i = 0; i < plane.values.length; i++) {
    plane.values[i] = random();
    mask.values[i] = random() > 0.15 ? 1 : 0;
    if (!mask.values[i]) plane.values[i] = NaN;
  }
  return { plane, mask };
}

/** The closing by its definition: the smallest, over disks that hold the cell, of the largest within that disk. */
function closedByDefinition(plane: Plane, mask: Mask, radius: number, column: number, row: number): number {
  const reach = Math.floor(radius);
  const valueAt = (c: number, r: number) =>
    c >= 0 && r >= 0 && c < plane.width && r < plane.height && mask.values[r * plane.width + c]
      ? plane.values[r * plane.width + c]
      : -Infinity;
  const inDisk: [number, number][] = [];
  for (let dy = -reach; dy <= reach; dy++) {
    for (let dx = -reach; dx <= reach; dx++) if (dx * dx + dy * dy <= radius * radius) inDisk.push([dx, dy]);
  }
  return Math.min(
    ...inDisk.map(([ox, oy]) => Math.max(...inDisk.map(([dx, dy]) => valueAt(column + ox + dx, row + oy + dy)))),
  );
}

describe('closeGrey', () => {
  it.each([
    [23, 17, 1],
    [23, 17, 3.5],
    [9, 26, 5],
    [1, 1, 2],
    [31, 2, 4],
  ])('[PM1] equals the definition on a random plane of %i x %i, radius %f', (width, height, radius) => {
    const { plane, mask } = randomPlane(width, height, 17);
    const before = plane.values.slice();
    const closed = closeGrey(plane, mask, radius);
    for (let i = 0; i < plane.values.length; i++) {
      const expected = closedByDefinition(plane, mask, radius, i % width, Math.floor(i / width));
      expect(closed.values[i]).toBe(mask.values[i] ? expected : -Infinity);
    }
    expect(plane.values).toEqual(before);
  });

  it('[PM1] leaves light that falls off towards the rim as it is', () => {
    const plane = createPlane(40, 20);
    for (let i = 0; i < 800; i++) plane.values[i] = (i % 40) * 0.7 + Math.floor(i / 40) * 0.3;
    const closed = closeGrey(plane, createMask(40, 20, 1), 6);
    // In the dark corner the disk, lying mostly outside, cannot quite reach the last cells: 2 cells' rise at most.
    for (let i = 0; i < 800; i++) expect(closed.values[i] - plane.values[i]).toBeWithin(0, 2);
    expect(closed.values[10 * 40]).toBeWithin(plane.values[10 * 40], 0.31); // one row's rise: a disk of cells has corners
  });
});

describe('dilateMask', () => {
  it('[PM4] widens by a disk', () => {
    const mask = maskOf('.......', '.......', '...#...', '.......', '.......');
    expect(textOf(dilateMask(mask, 2))).toEqual(['...#...', '..###..', '.#####.', '..###..', '...#...']);
    expect(textOf(dilateMask(mask, 0))).toEqual(textOf(mask));
  });

  it.each([
    [23, 17, 2.6, 0.04],
    [9, 26, 4, 0.6],
    [31, 2, 5.2, 0.15],
    [1, 1, 3, 1],
    [14, 11, 1, 0.97],
  ])(
    '[PM4] %i x %i, radius %f, share %f set: a cell is set where the disk about it meets one',
    (w, h, radius, share) => {
      const random = seededRandom(29);
      const mask = createMask(w, h);
      for (let i = 0; i < mask.values.length; i++) mask.values[i] = random() < share ? 1 : 0;
      const before = mask.values.slice();
      const expected = mask.values.map((_, at) => {
        const [row, column] = [Math.floor(at / w), at % w];
        return mask.values.some(
          (set, i) => set && (Math.floor(i / w) - row) ** 2 + ((i % w) - column) ** 2 <= radius ** 2,
        )
          ? 1
          : 0;
      });
      expect(dilateMask(mask, radius).values).toEqual(expected);
      expect(mask.values).toEqual(before);
    },
  );
});

describe('openByTwo', () => {
  it('[PM3] drops what is one cell thin', () => {
    const mask = maskOf('##.....#', '##...###', '..#..##.', '...#....', '######..');
    expect(textOf(openByTwo(mask))).toEqual(['##......', '##...##.', '.....##.', '........', '........']);
  });
});

describe('aboveWithHysteresis', () => {
  it('[PM2] keeps weak cells only with a strong neighbour, diagonal ones too', () => {
    const score: Plane = {
      width: 6,
      height: 3,
      values: Float32Array.from([3, 0, 0, 9, 0, 3, 0, 0, 3, 0, 0, 3, 0, 3, 0, 0, 0, 1]),
    };
    expect(textOf(aboveWithHysteresis(score, createMask(6, 3, 1), 2, 8))).toEqual(['...#..', '..#...', '.#....']);
    const within = createMask(6, 3, 1);
    within.values[8] = 0;
    expect(textOf(aboveWithHysteresis(score, within, 2, 8))).toEqual(['...#..', '......', '......']);
  });
});
