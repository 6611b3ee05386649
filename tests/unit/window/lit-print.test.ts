import { describe, expect, it } from 'vitest';
import { createMask, type Mask } from '../../../core/base/plane';
import { findLitPrint, printPolarityOf } from '../../../core/window/lit-print';
import { drawWindow, scalePrint, spotLight, strokeMask } from './draw-window';

const everywhere = createMask(600, 250, 1);
const countOf = (mask: Mask) => mask.values.reduce((sum, value) => sum + value, 0);
const overlap = (a: Mask, b: Mask) => a.values.reduce((sum, value, i) => sum + (value & b.values[i]), 0);

// Lit figures: the ground lets through a hundredth, so a stroke that lets through 100 times as much is lit.
const figures = scalePrint().dark.map((stroke) => ({ ...stroke, transmits: [100, 100, 100] as const }));
const litScene = (ratio: number) => {
  const light = spotLight(ratio, 5, 20, 8);
  return drawWindow({ widthMm: 60, heightMm: 25, light: (x, y) => 0.01 * light(x, y), strokes: figures, noise: 0.01 });
};
const darkScene = (ratio: number) =>
  drawWindow({ widthMm: 60, heightMm: 25, light: spotLight(ratio, 5, 20, 8), strokes: scalePrint().dark, noise: 0.01 });

describe('findLitPrint', () => {
  it.each([1, 3])('[PM8] finds lit figures under a spot of %i times, and nothing else', (ratio) => {
    const window = litScene(ratio);
    const { lit, core } = findLitPrint(window, everywhere);
    const truth = strokeMask(window, figures);
    const thin = strokeMask(window, figures, -0.1);
    const wide = strokeMask(window, figures, 0.15);
    expect(overlap(thin, lit) / countOf(thin)).toBeGreaterThan(0.99);
    expect(overlap(wide, lit)).toBe(countOf(lit));
    expect(overlap(core, truth)).toBe(countOf(core));
    expect(countOf(core)).toBeGreaterThan(0);
    expect(countOf(core)).toBeLessThan(countOf(lit));
  });

  it('[PM8] finds nothing on even ground or without light', () => {
    for (const light of [0.5, 0]) {
      const window = drawWindow({ widthMm: 60, heightMm: 25, light: () => light, noise: 0.02 });
      expect(countOf(findLitPrint(window, everywhere).lit)).toBe(0);
    }
  });
});

describe('printPolarityOf', () => {
  it('[PM7] tells dark print from lit figures, also under a hot spot, and does not guess without light', () => {
    for (const ratio of [1, 3]) {
      expect(printPolarityOf(darkScene(ratio), everywhere)).toBe('dark');
      expect(printPolarityOf(litScene(ratio), everywhere)).toBe('light');
    }
    const black = drawWindow({ widthMm: 60, heightMm: 25, light: () => 0 });
    expect(printPolarityOf(black, everywhere)).toBeNull();
  });

  it('[PM7] is undecided when the middle of the window is neither lit nor black', () => {
    const light = (x: number) => (x < 6 ? 0.5 : 0.06);
    expect(printPolarityOf(drawWindow({ widthMm: 60, heightMm: 25, light }), everywhere)).toBeNull();
  });
});
