import { describe, expect, it } from 'vitest';
import { createMask, createPlane, type Mask, type Plane } from '../../../core/base/plane';
import { thinPlateFilled } from '../../../core/base/thin-plate';
import { seededRandom } from '../../support/seeded-random';

const [width, height] = [40, 24];

function drawn(at: (x: number, y: number) => number): Plane {
  const plane = createPlane(width, height);
  return { ...plane, values: plane.values.map((_, i) => at(i % width, Math.floor(i / width))) };
}

/** Open cells where a mark hides the light. */
function hidden(isHidden: (x: number, y: number) => boolean): Mask {
  const mask = createMask(width, height);
  return { ...mask, values: mask.values.map((_, i) => (isHidden(i % width, Math.floor(i / width)) ? 1 : 0)) };
}

/** What is hidden is guessed as 0. */
const guessed = (plane: Plane, open: Mask): Plane => ({
  ...plane,
  values: plane.values.map((value, i) => (open.values[i] ? 0 : value)),
});

const worst = (a: Plane, b: Plane, open: Mask): number =>
  a.values.reduce((most, value, i) => (open.values[i] ? Math.max(most, Math.abs(value - b.values[i])) : most), 0);

const block = hidden((x, y) => x >= 14 && x < 24 && y >= 8 && y < 16);

describe('thinPlateFilled', () => {
  it('[AV11] goes on with a slope, under a hole and beyond the last known cell', () => {
    const slope = drawn((x, y) => 0.05 * x - 0.02 * y);
    for (const open of [block, hidden((x) => x >= width - 4)]) {
      // A plane bends nothing; what is left is the iteration's.
      expect(worst(thinPlateFilled(guessed(slope, open), open), slope, open)).toBeLessThan(0.01);
    }
  });

  it('[AV11] goes on with curvature: the top of a spot is found under a mark', () => {
    const spot = drawn((x, y) => Math.exp(-((x - 19) ** 2 + (y - 12) ** 2) / (2 * 9 ** 2)));
    const filled = thinPlateFilled(guessed(spot, block), block);
    // Around the hole, as wide as the spot's sigma, the spot is at 0.78 to 0.9; its top is 1.
    expect(filled.values[12 * width + 19]).toBeWithin(1, 0.09);
    expect(worst(filled, spot, block)).toBeLessThan(0.09);
  });

  it('[AV11] noise of single cells is not bent on: half a per cent stays under two beyond the edge', () => {
    const random = seededRandom(11);
    const noise = drawn(() => 0.01 * (random() - 0.5));
    const open = hidden((x) => x >= width - 4);
    expect(worst(thinPlateFilled(guessed(noise, open), open), createPlane(width, height), open)).toBeLessThan(0.02);
  });

  it('[AV11] leaves known cells as they are, and a plane without holes', () => {
    const plane = drawn((x, y) => Math.sin(x) + y);
    const filled = thinPlateFilled(plane, block);
    plane.values.forEach((value, i) => {
      if (!block.values[i]) expect(filled.values[i]).toBe(value);
    });
    expect(thinPlateFilled(plane, createMask(width, height))).toBe(plane);
  });
});
