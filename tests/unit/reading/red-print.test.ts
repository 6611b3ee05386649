import { describe, expect, it } from 'vitest';
import { createMask, type Mask } from '../../../core/base/plane';
import { xyzFromLinearSrgb } from '../../../core/colour/spaces';
import type { Triple } from '../../../core/colour/matrix3';
import { buildGlowMap } from '../../../core/reading/glow-map-build';
import { redPrintFigures, type RedPrintFigures } from '../../../core/reading/red-print';
import type { RedPrintView } from '../../../core/reading/red-print-colours';
import { coreOf, distanceInside, ridgePoints } from '../../../core/reading/red-print-distance';
import {
  errorFunction,
  fillFactor,
  markDifference,
  markVisibility,
  rednessOf,
  widthFactor,
} from '../../../core/reading/red-print-formulas';
import { redPrintUncertainty } from '../../../core/reading/red-print-uncertainty';
import type { UncertaintyBasis } from '../../../core/reading/uncertainty';
import { outlineMask } from '../../../core/window/outline';
import { printMaskOf } from '../../../core/window/print-mask';
import { medianOf } from '../../../core/base/stats';
import { seededRandom } from '../../support/seeded-random';
import { workedExamples } from '../../support/worked-examples';
import { darkInk, drawWindow, redInk, type Scene, type Stroke } from '../window/draw-window';

const rectangle = { kind: 'rectangle' } as const;
const colour = [0.61, 0.33, 0.08] as const;
const options = { photoPxPerMm: 12, viewingDistanceMm: 500 };

function viewOf(scene: Scene): RedPrintView {
  const { widthMm, heightMm } = scene;
  const window = drawWindow(scene);
  const spec = { shape: rectangle, print: 'dark', leaveOut: [], paintedRed: [], paintedDark: [] } as const;
  const print = printMaskOf(window, spec);
  const outline = (pxPerMm: number, erodeMm: number, rule: 'whole' | 'centre'): Mask =>
    outlineMask(rectangle, widthMm, heightMm, pxPerMm, erodeMm, rule);
  const fine = outline(10, 0, 'centre');
  const masks = {
    print,
    outline: fine,
    erodedWhole: outline(4, 1, 'whole'),
    leftOut: createMask(fine.width, fine.height),
  };
  const map = buildGlowMap(window, masks, { widthMm, heightMm, borderMm: 1, pxPerMm: 4, useGreen: false });
  return { window, print, map, outline: outline(4, 0, 'centre') };
}

const stroke = (x1: number, y1: number, x2: number, y2: number, widthMm: number, isRed: boolean): Stroke => {
  return { x1, y1, x2, y2, widthMm, transmits: isRed ? redInk : darkInk };
};

const strokes = [
  stroke(6, 9, 34, 9, 1.1, true),
  stroke(9, 3, 9, 6.5, 0.9, false),
  stroke(15, 3, 15, 6.5, 0.9, false),
  stroke(27, 3, 27, 6.5, 0.9, false),
];
const scene: Scene = { widthMm: 40, heightMm: 14, light: () => 0.8, strokes, colour, blurMm: 0.06 };

function figuresOf(view: RedPrintView, of = options): RedPrintFigures {
  const result = redPrintFigures(view, of);
  if (result.kind !== 'figures') throw new Error(result.reason);
  return result.figures;
}

/** What the drawn ink gives on the drawn glow. */
const inkXyz = (ink: readonly number[]): Triple =>
  xyzFromLinearSrgb([colour[0] * ink[0], colour[1] * ink[1], colour[2] * ink[2]]);
const glowXyz = xyzFromLinearSrgb(colour);
const trueRedness = rednessOf(inkXyz(redInk), glowXyz);
const trueContrast = inkXyz(redInk)[1] / glowXyz[1] - 1;

describe('worked examples', () => {
  interface Colours {
    XYZ_ground: Triple;
    XYZ_mark: Triple;
    XYZ_ground_ref: Triple;
    XYZ_mark_ref: Triple;
  }
  const reds = workedExamples<Colours, { R: number; C_L: number; index: number }>('red-');

  it.each(reds.map((example) => [example.id, example] as const))('[RP3] %s', (_, { input, expected, tolerance }) => {
    const allowed = tolerance as { R: number; C_L: number; index: number };
    const redness = rednessOf(input.XYZ_mark, input.XYZ_ground);
    expect(redness).toBeWithin(expected.R, allowed.R);
    expect(input.XYZ_mark[1] / input.XYZ_ground[1] - 1).toBeWithin(expected.C_L, allowed.C_L);
    const index = (100 * redness) / rednessOf(input.XYZ_mark_ref, input.XYZ_ground_ref);
    expect(index).toBeWithin(expected.index, allowed.index);
  });

  const widths = workedExamples<{ w_mm: number; D_mm: number }, { A: number }>('redwidth');

  it.each(widths.map((example) => [example.id, example] as const))('[RP4] %s', (_, { input, expected, tolerance }) => {
    expect(widthFactor(input.w_mm, input.D_mm)).toBeWithin(expected.A, Number(tolerance));
  });
});

describe('formulas', () => {
  it.each([
    [0, 0],
    [0.1, 0.112462916],
    [0.5, 0.5204998778],
    [1, 0.8427007929],
    [1.5, 0.9661051465],
    [2, 0.995322265],
    [3, 0.9999779095],
  ])('[RP4] the error function at %d', (x, value) => {
    expect(errorFunction(x)).toBeWithin(value, 1.5e-7); // the bound that the source states
    expect(errorFunction(-x)).toBeWithin(-value, 1.5e-7);
  });

  it('[RP3] a mark that is only darker has no redness, a greener one a negative, whatever the exposure', () => {
    const glow: Triple = [1.1, 1, 0.21];
    expect(rednessOf([0.33, 0.3, 0.063], glow)).toBeWithin(0, 1e-12);
    expect(rednessOf([0.25, 0.4, 0.05], glow)).toBeLessThan(-0.05);
    const mark: Triple = [0.55, 0.29, 0.01];
    const brighter = rednessOf([5.5, 2.9, 0.1], [11, 10, 2.1]);
    expect(brighter).toBeWithin(rednessOf(mark, glow), 1e-12);
    expect(() => rednessOf(mark, [0, 0, 0])).toThrow('cone response');
  });

  it('[RP5] no difference to itself; the whole lightness to black', () => {
    expect(markDifference(glowXyz, glowXyz)).toBeWithin(0, 1e-9);
    expect(markDifference([0, 0, 0], glowXyz)).toBeWithin(100, 1e-6); // CIEDE2000 of black and white
  });

  it('[RP4] visibility: both parts in units of what is just seen', () => {
    expect(markVisibility(0.03, 0, 1)).toBeWithin(3, 1e-12);
    expect(markVisibility(0, -0.08, 0.4)).toBeWithin(4, 1e-12);
    expect(markVisibility(0.06, -0.16, 0.5)).toBeWithin(Math.sqrt(9 + 64), 1e-12);
  });

  it('[RP6] fill factor: through the three widths, steady, 1 from 6 px on', () => {
    expect([3.3, 4.4, 6, 17].map(fillFactor)).toEqual([0.67, 0.88, 1, 1]);
    expect(fillFactor(4)).toBeWithin(0.8036, 1e-4);
    expect(fillFactor(5.2)).toBeWithin(0.94, 1e-12);
    expect(fillFactor(0.5)).toBe(0.67);
  });
});

describe('distances', () => {
  function randomMask(width: number, height: number, seed: number): Mask {
    const random = seededRandom(seed);
    const mask = createMask(width, height);
    for (let i = 0; i < mask.values.length; i++) mask.values[i] = random() < 0.86 ? 1 : 0;
    return mask;
  }

  function bruteForce({ width, height, values }: Mask, column: number, row: number): number {
    if (!values[row * width + column]) return 0;
    let least = Infinity;
    for (let y = -1; y <= height; y++) {
      for (let x = -1; x <= width; x++) {
        const isOutside = x < 0 || y < 0 || x >= width || y >= height || !values[y * width + x];
        if (isOutside) least = Math.min(least, (x - column) ** 2 + (y - row) ** 2);
      }
    }
    return Math.sqrt(least);
  }

  it.each([
    [1, 1],
    [7, 23],
    [31, 12],
  ])('[RP1] inside a mask of %d x %d cells: the same as by trying every cell', (width, height) => {
    const mask = randomMask(width, height, 7 * width + height);
    const before = mask.values.slice();
    const { values } = distanceInside(mask);
    const expected = Float32Array.from(values, (_, i) => bruteForce(mask, i % width, Math.floor(i / width)));
    expect(values).toEqual(expected);
    expect(mask.values).toEqual(before);
  });

  const ridgeDistances = (mask: Mask): number[] => ridgePoints(mask).map(({ insideCells }) => insideCells);

  const barMask = (thickness: number): Mask => {
    const mask = createMask(90, 40);
    for (let row = 9; row < 9 + thickness; row++) mask.values.fill(1, row * 90 + 5, row * 90 + 85);
    return mask;
  };

  it.each([1, 2, 3, 4, 5, 8, 11])('[RP1] a bar of %d cells has ridges of half its width', (thickness) => {
    expect(medianOf(ridgeDistances(barMask(thickness)))).toBeWithin(thickness / 2, 1e-6);
  });

  it('[RP1] a slanting stroke: within half a cell', () => {
    const mask = createMask(120, 120);
    for (let row = 0; row < 120; row++) {
      for (let column = 0; column < 120; column++) {
        const across = Math.abs(0.8 * (column - 60) - 0.6 * (row - 60));
        const along = Math.abs(0.6 * (column - 60) + 0.8 * (row - 60));
        if (across < 4.5 && along < 45) mask.values[row * 120 + column] = 1;
      }
    }
    expect(2 * medianOf(ridgeDistances(mask))).toBeWithin(9, 0.5); // steps of its edge reach inwards
  });

  it.each([
    [1, 1], // 30 % of half a cell is less than to its middle: kept whole
    [5, 3], // 30 % of 2.5 cells
    [8, 6],
    [20, 16], // 0.2 mm on both sides
  ])('[RP2] a bar of %d cells keeps %d', (thickness, kept) => {
    const core = coreOf(barMask(thickness), 10);
    const column = Array.from({ length: 40 }, (_, row) => core.values[row * 90 + 44]);
    expect(column.reduce((sum, value) => sum + value, 0)).toBe(kept);
  });

  it('[RP1] no print: no ridges, no core', () => {
    expect(ridgeDistances(createMask(6, 5))).toEqual([]);
    expect(coreOf(createMask(6, 5), 10).values.includes(1)).toBe(false);
  });
});

describe('red print of a drawn window', () => {
  it('[RP2] an even glow: the ink, to 2 % of the redness', () => {
    const figures = figuresOf(viewOf(scene));
    expect(figures.redness / trueRedness).toBeWithin(1, 0.02);
    expect(figures.luminanceContrast).toBeWithin(trueContrast, 0.02);
    expect(figures.strokeMm).toBeWithin(1.1, 0.05); // half a cell
    expect(figures.deltaE00).toBeWithin(markDifference(inkXyz(redInk), glowXyz), 1);
    expect(figures.widthFactor).toBe(widthFactor(figures.strokeMm, 500));
    expect(figures.fillFactor).toBe(1);
    expect(figures.visibility).toBe(markVisibility(figures.redness, figures.luminanceContrast, figures.widthFactor));
  });

  it('[RP2] a channel without any light, as blue less than the room alone had, is dark and not unknown', () => {
    const withBlue = (blue: number): number => {
      const view = viewOf({ ...scene, colour: [0.61, 0.33, 1e-6] });
      const fill = (plane: typeof view.map.blue) => ({ ...plane, values: plane.values.map((v) => v && blue) });
      return figuresOf({
        ...view,
        window: { ...view.window, blue: fill(view.window.blue) },
        map: { ...view.map, blue: fill(view.map.blue) },
      }).redness;
    };
    expect(withBlue(-0.002)).toBeWithin(withBlue(1e-6), 0.005); // 0.002 of blue is 3 per mille of the light
  });

  it('[RP2] a steep glow: the local one counts, not the mean', () => {
    const steep = (x: number, y: number): number => 0.15 + 0.7 * Math.exp(-((x - 30) ** 2 + (y - 11) ** 2) / 50);
    const figures = figuresOf(viewOf({ ...scene, light: steep }));
    expect(figures.redness / trueRedness).toBeWithin(1, 0.05);
    expect(figures.luminanceContrast).toBeWithin(trueContrast, 0.03);
  });

  it('[RP7] the dark print is the control: no redness', () => {
    const figures = figuresOf(viewOf(scene));
    expect(figures.darkRedness).toBeWithin(0, 0.005);
    expect(figures.isControlOff).toBe(false);
    const brown = strokes.map((one) =>
      one.transmits === darkInk ? { ...one, transmits: [0.16, 0.045, 0.03] as const } : one,
    );
    const coloured = figuresOf(viewOf({ ...scene, strokes: brown }));
    expect(coloured.darkRedness).toBeGreaterThan(0.02);
    expect(coloured.isControlOff).toBe(true);
    expect(figuresOf(viewOf({ ...scene, strokes: strokes.slice(0, 1) })).darkRedness).toBe(null);
  });

  it('[RP2] exposure does not matter, noise hardly', () => {
    const bright = figuresOf(viewOf(scene));
    const dim = figuresOf(viewOf({ ...scene, light: () => 0.2 }));
    expect(dim.redness).toBeWithin(bright.redness, 1e-4);
    expect(figuresOf(viewOf({ ...scene, noise: 0.03 })).redness / trueRedness).toBeWithin(1, 0.03);
  });

  it('[RP2] left and right do not matter', () => {
    const mirrored = strokes.map((one) => ({ ...one, x1: 40 - one.x1, x2: 40 - one.x2 }));
    const light = (x: number): number => 0.4 + 0.01 * x;
    const figures = figuresOf(viewOf({ ...scene, light }));
    const other = figuresOf(viewOf({ ...scene, strokes: mirrored, light: (x) => light(40 - x) }));
    expect(other.redness).toBeWithin(figures.redness, 1e-3);
    expect(other.strokeMm).toBeWithin(figures.strokeMm, 1e-6);
  });

  it('[RP6] 4 to 6 photo pixels: divided by the fill factor; below 4 refused with the width', () => {
    const view = viewOf(scene);
    const whole = figuresOf(view);
    const coarse = figuresOf(view, { ...options, photoPxPerMm: 5 / whole.strokeMm });
    expect(coarse.strokePx).toBeWithin(5, 1e-9);
    expect(coarse.redness).toBeWithin(whole.redness / fillFactor(5), 1e-9);
    expect(coarse.luminanceContrast).toBe(whole.luminanceContrast);
    const thin = redPrintFigures(view, { ...options, photoPxPerMm: 3.9 / whole.strokeMm });
    expect(thin).toMatchObject({ kind: 'too-thin', code: 'STROKE_TOO_THIN', strokeMm: whole.strokeMm });
    expect('reason' in thin && thin.reason).toContain('only 3.9 pixels');
  });

  it('[RP7] no red print: said so, with the reason', () => {
    const result = redPrintFigures(viewOf({ ...scene, strokes: strokes.slice(1) }), options);
    expect(result).toMatchObject({ kind: 'not-found', code: 'RED_NOT_FOUND' });
  });

  it('[RP2] the inputs stay as they were', () => {
    const view = viewOf(scene);
    const before = structuredClone(view);
    redPrintFigures(view, options);
    expect(view).toEqual(before);
  });
});

describe('plus-minus', () => {
  const basis: UncertaintyBasis = {
    response: 'linear',
    isSmallCamera: false,
    light: 'filament',
    room: 'dark',
    ambientShare: 0,
    viewShare: 0.3,
    printMaskFrom: 'photo',
    printShare: 0.1,
    clippedShare: 0,
    cellNoise: 0.01,
    pxPerMm: 12,
    whiteBalance: 'manual',
  };
  const figures = figuresOf(viewOf(scene));
  const of = (changed: Partial<UncertaintyBasis>, from = figures) =>
    redPrintUncertainty(from, { ...basis, ...changed });

  it('[RP8] the parts add in squares: filament, linear, room light measured as none', () => {
    const { redness, luminanceContrast } = of({});
    expect(redness / figures.redness).toBeWithin(Math.sqrt(0.07 ** 2 + 0.03 ** 2), 1e-9);
    expect(luminanceContrast / -figures.luminanceContrast).toBeWithin(Math.sqrt(0.08 ** 2 + 0.02 ** 2), 1e-9);
  });

  it('[RP8] every doubt widens: curve, light, room, a coarse photo', () => {
    const least = of({}).redness;
    expect(of({ response: 'stated' }).redness).toBeGreaterThan(least);
    expect(of({ response: 'unknown' }).redness).toBeGreaterThan(of({ response: 'stated' }).redness);
    expect(of({ light: 'red+green' }).redness).toBeGreaterThan(3 * least);
    expect(of({ room: 'lit', ambientShare: null }).redness).toBeGreaterThan(
      of({ room: 'dark', ambientShare: null }).redness,
    );
    const coarse = { ...figures, fillFactor: 0.8, redness: figures.redness / 0.8 };
    expect(of({}, coarse).redness / coarse.redness).toBeWithin(Math.sqrt(0.07 ** 2 + 0.03 ** 2 + 0.125 ** 2), 1e-9);
  });

  it('[RP8] under narrow amber light an amount, not a share: a tenth of the redness is as unsure as the whole', () => {
    const faint = { ...figures, redness: figures.redness / 10 };
    expect(of({ light: 'narrow-amber' }, faint).redness).toBeGreaterThan(0.0045);
    expect(of({ light: 'narrow-amber' }).redness).toBeLessThan(0.0075);
  });

  it('[RP8] visibility and colour difference follow', () => {
    const { redness, luminanceContrast, visibility, deltaE00 } = of({});
    const step = 1e-4;
    const seen = (r: number, c: number): number => markVisibility(r, c, figures.widthFactor);
    const { redness: r, luminanceContrast: c } = figures;
    const byRedness = ((seen(r + step, c) - seen(r, c)) / step) * redness;
    const byContrast = ((seen(r, c + step) - seen(r, c)) / step) * luminanceContrast;
    expect(visibility / Math.hypot(byRedness, byContrast)).toBeWithin(1, 1e-3); // one-sided difference
    expect(deltaE00 / figures.deltaE00).toBeWithin(Math.sqrt(0.08 ** 2 + 0.02 ** 2), 1e-9);
  });
});
