import { describe, expect, it } from 'vitest';
import { blurMasked } from '../../../core/base/gaussian';
import { createMask, createPlane, type Mask, type Plane } from '../../../core/base/plane';
import { closeGrey } from '../../../core/window/morphology';
import { printFreeBackground } from '../../../core/window/print-background';
import { seededRandom } from '../../support/seeded-random';

/** Mean of a block's cells in the mask, cell by cell in single precision; null when there are none. */
function blockMean(plane: Plane, mask: Mask, factor: number, column: number, row: number): number | null {
  let [sum, count] = [0, 0];
  for (let r = row * factor; r < Math.min(plane.height, (row + 1) * factor); r++) {
    for (let c = column * factor; c < Math.min(plane.width, (column + 1) * factor); c++) {
      const at = r * plane.width + c;
      if (!mask.values[at]) continue;
      sum = Math.fround(sum + plane.values[at]);
      count++;
    }
  }
  return count > 0 ? Math.fround(sum / count) : null;
}

/** The background by its description, one cell at a time; closing and blur have tests of their own. */
function backgroundPlainly(plane: Plane, mask: Mask, pxPerMm: number, diameterMm: number): Float32Array {
  const factor = Math.max(1, Math.floor(pxPerMm / 5));
  const width = Math.ceil(plane.width / factor);
  const height = Math.ceil(plane.height / factor);
  const small = createPlane(width, height);
  const smallMask = createMask(width, height);
  for (let i = 0; i < small.values.length; i++) {
    const mean = blockMean(plane, mask, factor, i % width, Math.floor(i / width));
    if (mean === null) continue;
    small.values[i] = mean;
    smallMask.values[i] = 1;
  }
  const closed = closeGrey(small, smallMask, Math.max(1, ((diameterMm / 2) * pxPerMm) / factor));
  const smooth = blurMasked(closed, smallMask, ((diameterMm / 4) * pxPerMm) / factor).blurred;
  const lower = closed.values.map((value, i) => Math.min(value, smooth.values[i]));
  const placeOf = (fine: number, length: number) => {
    const place = Math.min(Math.max((fine + 0.5) / factor - 0.5, 0), length - 1);
    return { first: Math.floor(place), share: Math.fround(place - Math.floor(place)) };
  };
  return plane.values.map((_, at) => {
    if (!mask.values[at]) return NaN;
    const across = placeOf(at % plane.width, width);
    const down = placeOf(Math.floor(at / plane.width), height);
    let [sum, weight] = [0, 0];
    for (const [dx, dy] of [
      [0, 0],
      [1, 0],
      [0, 1],
      [1, 1],
    ]) {
      const share = (dx ? across.share : 1 - across.share) * (dy ? down.share : 1 - down.share);
      const coarse = Math.min(down.first + dy, height - 1) * width + Math.min(across.first + dx, width - 1);
      if (!smallMask.values[coarse]) continue;
      sum += share * lower[coarse];
      weight += share;
    }
    return sum / weight;
  });
}

describe('printFreeBackground', () => {
  it.each([
    [37, 22, 10, 2.3, 0.85],
    [37, 23, 16, 1.1, 0.3],
    [8, 31, 10, 0.9, 0.08],
    [19, 14, 4, 3.7, 1],
    [1, 1, 10, 4, 1],
  ])(
    '[PM1] %i x %i cells, %f a mm, marks up to %f mm, share %f in the mask: to the last bit as worked out cell by cell',
    (width, height, pxPerMm, diameterMm, share) => {
      const random = seededRandom(61);
      const plane = createPlane(width, height);
      const mask = createMask(width, height);
      for (let i = 0; i < plane.values.length; i++) {
        mask.values[i] = random() < share ? 1 : 0;
        plane.values[i] = mask.values[i] ? -4 * random() : NaN;
      }
      const before = plane.values.slice();
      const background = printFreeBackground(plane, mask, pxPerMm, diameterMm);
      expect(background.values).toEqual(backgroundPlainly(plane, mask, pxPerMm, diameterMm));
      expect(plane.values).toEqual(before);
    },
  );

  it('[PM1] is NaN all over when nothing is in the mask', () => {
    const background = printFreeBackground(createPlane(13, 6, -1), createMask(13, 6), 10, 2);
    expect(background.values.every((value) => Number.isNaN(value))).toBe(true);
  });
});
