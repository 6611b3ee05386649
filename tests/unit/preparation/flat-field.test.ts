import { describe, expect, it } from 'vitest';
import type { CameraFacts } from '../../../core/contract/readings';
import { flatFieldOf, type FlatField } from '../../../core/preparation/flat-field';
import { dividedBy, useFlatField } from '../../../core/preparation/flat-field-use';
import { rectifyWindow } from '../../../core/window/rectify';
import { drawDecoded, seededNumbers } from '../photo/draw-decoded';
import { camera, drawScale, place, pxPerMm } from './draw-scale';

const [width, height] = [340, 160];
/** Light falls to 60 % in the frame's corners. */
const lens = (column: number, row: number): number => {
  const [x, y] = [(2 * column) / width - 1, (2 * row) / height - 1];
  return 1 - 0.2 * (x * x + y * y);
};

/** A sheet through the lens, 16 bits, linear codes. */
function sheetOf(light: (column: number, row: number) => number, notes: CameraFacts = camera): FlatField {
  const next = seededNumbers(3);
  const codes = new Uint16Array(width * height * 3);
  for (let row = 0, at = 0; row < height; row++) {
    for (let column = 0; column < width; column++, at += 3) {
      const value = light(column + 0.5, row + 0.5) * lens(column + 0.5, row + 0.5);
      codes.fill(Math.round(65535 * Math.min(1, value * (1 + 0.02 * (next() - 0.5)))), at, at + 3);
    }
  }
  const region = { column: 0, row: 0, width, height };
  return flatFieldOf(
    drawDecoded(codes, width, { region, facts: { widthPx: width, heightPx: height } }),
    'sheet',
    notes,
    'linear',
  );
}

const lit = drawScale({ light: (x, y) => 0.4 * lens(10 * x + 20, 10 * y + 20), print: 1 });
const window = rectifyWindow(lit.linear, place.homography, place.widthMm, place.heightMm, pxPerMm);

describe('flat field', () => {
  it('[CP3] divided by it, an even window is even again', () => {
    const use = useFlatField(
      lit,
      sheetOf(() => 0.6),
      place,
      window,
    );
    if (use.state !== 'divided') throw new Error(use.reason);
    const { values } = dividedBy(window, use.lens).green;
    const [least, most] = [Math.min(...values), Math.max(...values)];
    expect(Math.min(...window.green.values) / Math.max(...window.green.values)).toBeLessThan(0.75);
    // The blur flattens the lens's slope at the rim of the frame by 2 %.
    expect(least / most).toBeGreaterThan(0.98);
    // At the middle of the frame nothing is lost.
    expect(most).toBeWithin(0.4, 0.01);
  });

  it('[CP3] the same sheet twice as bright gives the same', () => {
    const [once, twice] = [0.4, 0.8].map((light) => sheetOf(() => light).relLuminance.values);
    expect(Math.max(...once.map((value, i) => Math.abs(value - twice[i])))).toBeLessThan(1e-4);
  });

  it.each<[RegExp, FlatField]>([
    [/overexposed/, sheetOf((column) => (column < 40 ? 2 : 0.6))],
    [/too dark/, sheetOf(() => 0.01)],
    [/nearly black/, sheetOf((column) => (column < 80 ? 0.02 : 0.6))],
    [/more than an evenly lit sheet/, sheetOf((column) => (Math.floor(column / 6) % 2 ? 0.3 : 0.6))],
    [/focal lengths differ/, sheetOf(() => 0.6, { ...camera, focalLengthMm: 35 })],
    [/f-numbers differ/, sheetOf(() => 0.6, { ...camera, fNumber: 8 })],
    [/another camera/, sheetOf(() => 0.6, { ...camera, model: 'Two' })],
    [/its frame is 300 x 160 px/, { ...sheetOf(() => 0.6), widthPx: 300 }],
  ])('[CP3] refused: %s', (reason, sheet) => {
    const use = useFlatField(lit, sheet, place, window);
    expect(use.state === 'refused' && use.reason).toMatch(reason);
  });

  it('[CP3] what a photo does not tell is not held against it', () => {
    expect(
      useFlatField(
        lit,
        sheetOf(() => 0.6, { whiteBalance: 'unknown' }),
        place,
        window,
      ).state,
    ).toBe('divided');
  });
});
