import { describe, expect, it } from 'vitest';
import { printSharpness } from '../../../../core/reading/checks/print-sharpness';
import { findPrint } from '../../../../core/window/print-mask';
import { outlineMask } from '../../../../core/window/outline';
import { drawWindow, rampLight, scalePrint } from '../../window/draw-window';

const drawn = (blurMm: number, withPrint = true) => {
  const { dark, red } = scalePrint();
  const strokes = withPrint ? [...dark, ...red] : [];
  const window = drawWindow({ widthMm: 60, heightMm: 25, light: rampLight(1.4, 60), strokes, blurMm, noise: 0.005 });
  return { window, print: findPrint(window, outlineMask({ kind: 'rectangle' }, 60, 25, 10, 0, 'centre')) };
};

describe('printSharpness', () => {
  it.each([0.08, 0.15, 0.3])(
    '[CK1] a scale blurred by %d mm, its print found by the engine, within a quarter',
    (blurMm) => {
      const { window, print } = drawn(blurMm);
      const { edgeMm, edgePx } = printSharpness(window, print, 12.5);
      // The figures stand close, and the drawing's logistic edge is 1 % narrower than a Gaussian's.
      expect(edgeMm).toBeWithin(2.563 * blurMm, 0.25 * 2.563 * blurMm);
      expect(edgePx).toBeWithin(12.5 * edgeMm!, 1e-12);
    },
  );

  it('[CK1] takes the wider direction', () => {
    const { window, print } = drawn(0.15);
    const { alongXMm, alongYMm, edgeMm } = printSharpness(window, print, 9.7);
    expect(edgeMm).toBe(Math.max(alongXMm!, alongYMm!));
  });

  it('[CK1] is null for a window without print', () => {
    const { window, print } = drawn(0.1, false);
    expect(printSharpness(window, print, 11)).toEqual({ alongXMm: null, alongYMm: null, edgeMm: null, edgePx: null });
  });
});
