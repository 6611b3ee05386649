import { describe, expect, it } from 'vitest';
import { createMask, createPlane, type Mask, type Plane } from '../../../core/base/plane';
import { strokeWidthCells } from '../../../core/reading/stroke-width';
import { readGatePhoto } from '../../support/gate-photo';

const pxPerMm = 10;
const side = 120;

/** A straight stroke through the middle, its edges blurred, at a slope of `rise` to `run`; its mask reaches wider than it. */
function drawn(widthCells: number, rise: number, run: number, blurCells: number): { mask: Mask; strength: Plane } {
  const mask = createMask(side, side);
  const strength = createPlane(side, side);
  const length = Math.sqrt(rise * rise + run * run);
  const share = (z: number): number => 1 / (1 + Math.exp(-1.702 * z)); // of a blurred edge, to 1 %
  for (let i = 0; i < mask.values.length; i++) {
    const [x, y] = [(i % side) + 0.5 - side / 2, Math.floor(i / side) + 0.5 - side / 2];
    const across = Math.abs(rise * x - run * y) / length;
    const along = Math.abs(run * x + rise * y) / length;
    if (along > 45) continue;
    const half = widthCells / 2;
    strength.values[i] = 0.3 * (share((half - across) / blurCells) - share((-half - across) / blurCells));
    mask.values[i] = across < half + 1.6 ? 1 : 0;
  }
  return { mask, strength };
}

const slopes = [[0, 1], [1, 0], [1, 1], [3, 4], [-2, 5]] as const; // prettier-ignore
// Blur of a quarter of the width lowers the strongest place by 5 %, and half of it lies farther out.
const tolerances = [[4, 0.25], [7, 0.1], [15, 0.1]] as const; // prettier-ignore
const strokes = slopes.flatMap(([rise, run]) => tolerances.map(([width, within]) => ({ width, rise, run, within })));

describe('width of the strokes', () => {
  it.each(strokes)(
    '[RP1] $width cells at a slope of $rise to $run, in a wider mask',
    ({ width, rise, run, within }) => {
      const { mask, strength } = drawn(width, rise, run, 1);
      expect(strokeWidthCells(mask, strength, pxPerMm)).toBeWithin(width, within);
    },
  );

  it('[RP1] the amount of strength does not matter, noise hardly', () => {
    const { mask, strength } = drawn(7, 3, 4, 1);
    const width = strokeWidthCells(mask, strength, pxPerMm);
    const faint = { ...strength, values: strength.values.map((value) => 0.1 * value) };
    expect(strokeWidthCells(mask, faint, pxPerMm)).toBeWithin(width, 1e-4); // float32
    let state = 5;
    const noise = (): number => (state = (state * 48271) % 2147483647) / 2147483647 - 0.5;
    const noisy = { ...strength, values: strength.values.map((value) => value + 0.06 * noise()) };
    // A fifth of the strength from crest to trough: the strongest place is a little too strong, half of it lies farther in.
    expect(strokeWidthCells(mask, noisy, pxPerMm)).toBeWithin(width, 0.4);
  });

  it('[RP1] a mask that lies half a stroke aside finds the stroke', () => {
    const { strength } = drawn(8, 0, 1, 1);
    const mask = createMask(side, side);
    for (let row = side / 2; row < side / 2 + 8; row++) mask.values.fill(1, row * side + 20, row * side + 100);
    expect(strokeWidthCells(mask, strength, pxPerMm)).toBeWithin(8, 0.1);
  });

  it('[RP1] print that cannot be seen has the width of its mask, no mask none', () => {
    const { mask } = drawn(7, 0, 1, 1);
    expect(strokeWidthCells(mask, createPlane(side, side), pxPerMm)).toBe(10);
    expect(strokeWidthCells(mask, createPlane(side, side, NaN), pxPerMm)).toBe(10);
    expect(strokeWidthCells(createMask(8, 8), createPlane(8, 8), pxPerMm)).toBeNaN();
  });

  // Lens blur of 1 px (deviation); tried from 0.3 to 2 mm and 4 to 20 px a mm: at most 11 % too wide from 4 px on.
  it.each([
    [1, 4],
    [0.7, 6],
    [0.5, 8],
  ])('[RP1] a photo of a line of %d mm at %d px a mm', async (redMm, pxPerMm) => {
    const camera = { widthPx: 64 * pxPerMm, heightPx: 25 * pxPerMm, blurPx: 1 };
    const { redPrint } = await readGatePhoto({ glass: { redMm }, camera });
    expect((redPrint.strokeMm ?? NaN) / redMm).toBeWithin(1, 0.12);
  });
});
