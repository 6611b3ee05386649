import { spawnSync } from 'node:child_process';
import { describe, expect, it } from 'vitest';
import { halftoneDots } from '../../../core/advice/shade/halftone';
import { levelLines } from '../../../core/advice/shade/level-lines';
import { steppedTransmission } from '../../../core/advice/shade/contour-steps';
import { drawingPdf } from '../../../core/node/sheet/shade-pdf';
import { drawingSvg } from '../../../core/sheet/html/drawing-svg';
import { shadeSheet } from '../../../core/sheet/shade-sheet';
import { drawnLight } from '../../support/drawn-maps';
import { pdfText, readPdf } from '../../support/pdf-reader';

/** Poppler draws the page as a printer would. */
const hasRaster = spawnSync('pdftoppm', ['-v']).status === 0;

const left = drawnLight(20, 10, 2, (x) => (x < 5 ? 0.3 : 1));
const sheetOf = (isMirrored: boolean, pitchMm: number | null = 1, widthMm = 20, transmission = left) =>
  shadeSheet({
    widthMm,
    heightMm: 10,
    transmission,
    pxPerMm: 2,
    pitchMm,
    isMirrored,
    title: 'Shade for a test',
    facts: ['one fact'],
    cautions: ['one caution'],
  });

describe('halftoneDots', () => {
  it('[AV8] cover the area that the transmission asks for', () => {
    const dots = halftoneDots(drawnLight(20, 10, 2, () => 0.6), 2, { widthMm: 20, heightMm: 10 }, 0.5); // prettier-ignore
    const covered = dots.reduce((sum, { sideMm }) => sum + sideMm * sideMm, 0) / 200;
    expect(covered).toBeWithin((1 - 0.6) / (1 - 0.02), 1e-6);
  });
});

describe('levelLines', () => {
  it('[AV8] lie where the value is', () => {
    const ramp = drawnLight(20, 10, 2, (x) => 1 - x / 20);
    for (const level of [0.75, 0.35]) {
      for (const [from, to] of levelLines(ramp, 2, level)) {
        expect(from[0]).toBeWithin(20 * (1 - level), 1e-4);
        expect(to[0]).toBeWithin(20 * (1 - level), 1e-4);
      }
    }
    expect(levelLines(ramp, 2, 0.75)).toHaveLength(19);
    expect(steppedTransmission(ramp).values[0]).toBe(1);
  });
});

describe('shadeSheet', () => {
  it('[AV8] has marks that meet in the corners, a ruler of 100 mm, and room on A4', () => {
    const { drawing, windowAt } = sheetOf(false);
    expect([drawing.widthMm, drawing.heightMm]).toEqual([210, 297]);
    const lines = drawing.items.flatMap((item) => (item.kind === 'line' ? [item.points] : []));
    for (const [x, y] of [[0, 0], [20, 0], [0, 10], [20, 10]]) {
      const corner = [windowAt[0] + x, windowAt[1] + y];
      expect(lines.filter(([from]) => from[0] === corner[0] && from[1] === corner[1])).toHaveLength(2);
    } // prettier-ignore
    expect(lines.some(([from, to]) => to[0] - from[0] === 100 && to[1] === from[1])).toBe(true);
    expect(sheetOf(false, 1, 250).drawing.widthMm).toBe(297);
    expect(sheetOf(false, 1, 400).drawing.widthMm).toBe(430);
  });

  it('[AV8] is turned left to right when mirrored', () => {
    const middles = (isMirrored: boolean): number[] => {
      const { drawing, windowAt } = sheetOf(isMirrored);
      return drawing.items.flatMap((item) => {
        if (item.kind !== 'shape' || !item.fill || item.points[0][1] > windowAt[1] + 10) return [];
        const x = (item.points[0][0] + item.points[1][0]) / 2 - windowAt[0];
        // the dots of the clear part are the smallest
        return Math.abs(item.points[1][0] - item.points[0][0]) > 0.5 ? [x] : [];
      });
    };
    expect(Math.max(...middles(false))).toBeLessThan(6);
    expect(Math.min(...middles(true))).toBeGreaterThan(14);
    expect(middles(true)).toHaveLength(middles(false).length);
  });

  /** A page at 200 dots an inch, and the first and last dark place along a line of it, mm. */
  async function printed(sheet: ReturnType<typeof sheetOf>) {
    const pdf = await drawingPdf(sheet.drawing, { program: 'Evendial', savedAt: '2026-01-02T03:04:05.000Z' });
    const grey = spawnSync('pdftoppm', ['-r', '200', '-gray', '-'], { input: pdf, maxBuffer: 1e8 }).stdout;
    const [, width, height] = /^P5\s+(\d+)\s+(\d+)\s+255\s/.exec(grey.subarray(0, 40).toString('latin1'))!.map(Number); // prettier-ignore
    const pixels = grey.subarray(grey.length - width * height);
    const px = 200 / 25.4;
    expect(width).toBeWithin(210 * px, 1);
    const darkOf = (at: (along: number) => number, fromMm: number, toMm: number): [number, number] => {
      const along = Array.from({ length: Math.floor((toMm - fromMm) * px) }, (_, i) => Math.floor(fromMm * px) + i);
      const dark = along.filter((one) => pixels[at(one)] < 140);
      return [dark[0] / px, (dark.at(-1)! + 1) / px];
    };
    return {
      across: (yMm: number, fromMm: number, toMm: number) => darkOf((x) => Math.floor(yMm * px) * width + x, fromMm, toMm), // prettier-ignore
      down: (xMm: number, fromMm: number, toMm: number) => darkOf((y) => y * width + Math.floor(xMm * px), fromMm, toMm), // prettier-ignore
    };
  }

  it.skipIf(!hasRaster)(
    '[AV8] printed at 200 dots an inch its ruler measures 100 mm and its marks stand in the corners, within 0.3 %',
    async () => {
      const sheet = sheetOf(false, null, 60);
      const [x, y] = sheet.windowAt;
      const { across, down } = await printed(sheet);
      const lines = sheet.drawing.items.flatMap((item) => (item.kind === 'line' ? [item.points] : []));
      const [from, to] = lines.find(([a, b]) => b[0] - a[0] === 100 && a[1] === b[1])!;
      const [left, right] = across(from[1], from[0] - 3, to[0] + 3);
      // 0.3 mm of 100; half a pixel is 0.06 mm, and a stroke has its width
      expect(right - left).toBeWithin(100, 0.3);
      // Upright marks above and below the window stand at its left and right edge, level ones beside it at top and bottom:
      // their crossings are the four corners. A stroke of 0.2 mm has its middle there, a pixel is 0.13 mm.
      const strokeAndPixel = 0.2 + 0.13;
      for (const [first, last] of [across(y - 2, x - 1, x + 61), across(y + 12, x - 1, x + 61)]) {
        expect(last - first).toBeWithin(60, 0.003 * 60 + 0.2);
        expect(first).toBeWithin(x, strokeAndPixel);
      }
      for (const [first, last] of [down(x - 2, y - 1, y + 11), down(x + 62, y - 1, y + 11)]) {
        expect(last - first).toBeWithin(10, 0.003 * 10 + strokeAndPixel);
        expect(first).toBeWithin(y, strokeAndPixel);
      }
    },
  );

  it.skipIf(!hasRaster)(
    '[AV8] printed mirrored, the dark part is at the other end, and the ruler as long',
    async () => {
      const solid = drawnLight(20, 10, 2, (x) => (x < 5 ? 0.03 : 1));
      for (const isMirrored of [false, true]) {
        const sheet = sheetOf(isMirrored, 1, 20, solid);
        const [x, y] = sheet.windowAt;
        const [first, last] = (await printed(sheet)).across(y + 5.5, x + 0.3, x + 19.7);
        // Dots of 1 mm: the quarter of 5 mm ends within one of them.
        expect(isMirrored ? first - x : x + 20 - last).toBeWithin(15, 1);
      }
    },
  );

  it('[AV8] is true to size in PDF and SVG, with the same words', async () => {
    const { drawing } = sheetOf(false, null);
    const svg = drawingSvg(drawing, new Map());
    expect(svg).toContain('width="210mm" height="297mm" viewBox="0 0 210 297"');
    const pdf = await drawingPdf(drawing, { program: 'Evendial', savedAt: '2026-01-02T03:04:05.000Z' });
    const [page] = readPdf(pdf);
    expect(page.widthPt).toBeWithin((210 / 25.4) * 72, 0.01);
    expect(page.heightPt).toBeWithin((297 / 25.4) * 72, 0.01);
    for (const words of ['one caution', '100 mm', '1 x: 61 %']) {
      expect(svg).toContain(words);
      expect(pdfText(pdf)).toContain(words);
    }
  });
});
