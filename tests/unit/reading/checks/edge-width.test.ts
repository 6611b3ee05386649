import { describe, expect, it } from 'vitest';
import { createMask, createPlane, type Mask, type Plane } from '../../../../core/base/plane';
import { blurGaussian } from '../../../../core/base/gaussian';
import { edgeWidths } from '../../../../core/reading/checks/edge-width';
import { strokeCorrection } from '../../../../core/reading/checks/stroke-correction';
import { seededRandom } from '../../../support/seeded-random';

interface Drawn {
  readonly light: Plane;
  readonly print: Mask;
}

/** Upright and level strokes on even light, 10 cells a mm: `widthMm` wide, 8 mm long. */
function drawPrint(widthMm: number, ink = 0.05, only: 'both' | 'upright' = 'both'): Drawn {
  const light = createPlane(600, 260, 0.6);
  const print = createMask(600, 260);
  const wide = Math.round(10 * widthMm);
  const fill = (fromColumn: number, fromRow: number, columns: number, rows: number): void => {
    for (let row = fromRow; row < fromRow + rows; row++) {
      for (let column = fromColumn; column < fromColumn + columns; column++) {
        light.values[row * 600 + column] = 0.6 * ink;
        print.values[row * 600 + column] = 1;
      }
    }
  };
  for (let i = 0; i < 5; i++) fill(45 + 50 * i, 90, wide, 80);
  if (only === 'both') for (let i = 0; i < 4; i++) fill(420, 40 + 52 * i, 80, wide);
  return { light, print };
}

/** Light smeared evenly over so many cells along a row, as by a shake. */
function smeared(plane: Plane, cells: number): Plane {
  const values = plane.values.map((_, at) => {
    const row = Math.floor(at / plane.width) * plane.width;
    let sum = 0;
    for (let k = 0; k < cells; k++) {
      sum += plane.values[row + Math.min(plane.width - 1, Math.max(0, at - row + k - Math.floor(cells / 2)))];
    }
    return sum / cells;
  });
  return { ...plane, values };
}

describe('edgeWidths', () => {
  it.each([
    [0.12, 1],
    [0.2, 1],
    [0.35, 1],
    [0.6, 1],
    [0.2, 0.4],
    [0.35, 0.4],
    [0.6, 0.4],
    [0.2, 3],
  ])('[CK1] a Gaussian blur of %d mm on strokes %d mm wide gives 2.563 times it, both ways', (blurMm, strokeMm) => {
    const { light, print } = drawPrint(strokeMm);
    const { alongXMm, alongYMm } = edgeWidths(blurGaussian(light, 10 * blurMm), print, 10);
    // 8 %: linear between cells, and the stroke's correction between the rows of its table.
    expect(alongXMm).toBeWithin(2.563 * blurMm, 0.08 * 2.563 * blurMm);
    expect(alongYMm).toBeWithin(2.563 * blurMm, 0.08 * 2.563 * blurMm);
  });

  it('[CK1] a shake along one direction is seen in that direction alone', () => {
    const { light, print } = drawPrint(2.2);
    const { alongXMm, alongYMm } = edgeWidths(smeared(light, 9), print, 10);
    // An even smear of 0.9 mm rises from 10 to 90 % over 0.72 mm.
    expect(alongXMm).toBeWithin(0.72, 0.02);
    expect(alongYMm).toBeLessThan(0.1);
  });

  it('[CK1] does not depend on the brightness, and half the cells a mm is twice the width', () => {
    const { light, print } = drawPrint(1);
    const blurred = blurGaussian(light, 2.5);
    const dim = { ...blurred, values: blurred.values.map((value) => 0.013 * value) };
    const one = edgeWidths(blurred, print, 10);
    // Single precision.
    expect(edgeWidths(dim, print, 10).alongXMm).toBeWithin(one.alongXMm!, 1e-5);
    expect(edgeWidths(blurred, print, 5).alongYMm).toBeWithin(2 * one.alongYMm!, 1e-12);
  });

  it('[CK1] noise of 2 % moves the width of a blurred edge by less than a tenth', () => {
    const { light, print } = drawPrint(1);
    const random = seededRandom(91);
    const noisy = blurGaussian(light, 2.5);
    for (let i = 0; i < noisy.values.length; i++) {
      noisy.values[i] *= 1 + 0.02 * (random() + random() + random() + random() - 2) * Math.sqrt(3);
    }
    expect(edgeWidths(noisy, print, 10).alongXMm).toBeWithin(0.641, 0.1 * 0.641);
  });

  it('[CK1] gives null where there is no edge: no print, faint print, strokes of the other direction', () => {
    const { light, print } = drawPrint(1);
    expect(edgeWidths(light, createMask(600, 260), 10)).toEqual({ alongXMm: null, alongYMm: null });
    const faint = drawPrint(1, 0.85);
    expect(edgeWidths(faint.light, faint.print, 10)).toEqual({ alongXMm: null, alongYMm: null });
    const level = createMask(600, 260);
    for (let column = 100; column < 160; column++) level.values[120 * 600 + column] = 1;
    const values = light.values.map((_, i) => (level.values[i] ? 0.1 : 0.7));
    const onlyLevel = edgeWidths({ ...light, values }, level, 10);
    expect([onlyLevel.alongXMm, onlyLevel.alongYMm !== null]).toEqual([null, true]);
    expect(print.values.some(Boolean)).toBe(true);
  });

  it('[CK1] light that was not measured next to a mark takes its edges out; nothing is altered', () => {
    const { light, print } = drawPrint(1, 0.05, 'upright');
    const hidden = { ...light, values: light.values.map((value, i) => (i % 600 > 240 ? NaN : value)) };
    const before = [hidden.values.slice(), print.values.slice()];
    const seen = edgeWidths(hidden, print, 10);
    // The grid's own cells: a sharp edge passes from 10 to 90 % within one.
    expect(seen.alongXMm).toBeWithin(0.08, 1e-6);
    expect([hidden.values, print.values]).toEqual(before);
    const one = edgeWidths(createPlane(1, 1, NaN), createMask(1, 1, 1), 10);
    expect(one).toEqual({ alongXMm: null, alongYMm: null });
  });
});

/** Normal distribution function, Abramowitz & Stegun 26.2.17 (from memory), error under 1e-7. */
function normalShare(z: number): number {
  const t = 1 / (1 + 0.2316419 * Math.abs(z));
  const tail = [1.330274429, -1.821255978, 1.781477937, -0.356563782, 0.31938153].reduce((sum, c) => (sum + c) * t, 0);
  const upper = (tail * Math.exp(-z * z * 0.5)) / Math.sqrt(2 * Math.PI);
  return z < 0 ? upper : 1 - upper;
}

describe('strokeCorrection', () => {
  it.each([0.3, 1.2, 1.8, 2.3, 2.8, 3.3, 4.4, 6.5])('[CK1] gives the single edge back, stroke %d blurs wide', (w) => {
    const light = (x: number): number => 1 - normalShare(x + w / 2) + normalShare(x - w / 2);
    const levelAt = (share: number): number => {
      const wanted = light(0) + share * (1 - light(0));
      let [from, to] = [0, 20];
      for (let i = 0; i < 60; i++) {
        const middle = (from + to) / 2;
        if (light(middle) < wanted) from = middle;
        else to = middle;
      }
      return from;
    };
    const flank = levelAt(0.9) - levelAt(0.1);
    // Linear between rows, and where the ratio hardly changes (strokes under one blur) it cannot be told well.
    expect(flank * strokeCorrection((2 * levelAt(0.5)) / flank)).toBeWithin(2.5631, 0.03);
  });

  it('[CK1] stays within its ends', () => {
    expect([strokeCorrection(0.2), strokeCorrection(9)]).toEqual([1.5194, 1]);
  });
});
