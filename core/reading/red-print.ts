import type { Mask, Plane } from '../base/plane';
import { medianOf } from '../base/stats';
import type { Triple } from '../colour/matrix3';
import { xyzFromLinearSrgb } from '../colour/spaces';
import { fillPlanes } from '../window/fill';
import { dilateMask } from '../window/morphology';
import { weberContrast } from './contrast';
import type { GlowView } from './glow-view';
import { coreOf, ridgeDistances } from './red-print-distance';
import { fillFactor, markDifference, markVisibility, rednessOf, widthFactor } from './red-print-formulas';

export type RedPrintView = Pick<GlowView, 'window' | 'print' | 'map' | 'outline'>;

export interface RedPrintOptions {
  /** Resolution of the photo itself on the window. */
  readonly photoPxPerMm: number;
  readonly viewingDistanceMm: number;
}

/** The red print of one photo. */
export interface RedPrintFigures {
  /** Median colour of the marks' cores and of the glow under them, 1 = full scale, D65. */
  readonly markXyz: Triple;
  readonly glowXyz: Triple;
  readonly strokeMm: number;
  readonly strokePx: number;
  /** By which the redness was divided, 1 when the stroke spans 6 px. */
  readonly fillFactor: number;
  readonly redness: number;
  /** Luminance of the mark over that of the glow, less 1. */
  readonly luminanceContrast: number;
  readonly deltaE00: number;
  readonly widthFactor: number;
  /** In units of what is just seen. */
  readonly visibility: number;
  /** Redness of the dark print, the control; null without dark print. */
  readonly darkRedness: number | null;
  /** The dark print looks coloured: stray light, or colour fringes of the lens. */
  readonly isControlOff: boolean;
}

export type RedPrintResult =
  | { readonly kind: 'figures'; readonly figures: RedPrintFigures }
  | { readonly kind: 'not-found'; readonly code: 'RED_NOT_FOUND'; readonly reason: string }
  | {
      readonly kind: 'too-thin';
      readonly code: 'STROKE_TOO_THIN';
      readonly reason: string;
      readonly strokeMm: number;
      readonly strokePx: number;
    };

/** Less red than this is a speck, mm2. */
const leastAreaMm2 = 0.5;
/** A stroke must span so many photo pixels to be judged at all. */
const leastStrokePx = 4;
/** Dark print redder or greener than this is not the colour of dark print. */
const darkRednessLimit = 0.02;

/** So near to red, dark print is no control. */
const rimOfRedMm = 0.5;

/** Value of a plane at a place, from the four cells about it; those without a value do not count. NaN when none has one. */
function valueAt({ width, height, values }: Plane, x: number, y: number): number {
  const column = Math.floor(x - 0.5);
  const row = Math.floor(y - 0.5);
  let sum = 0;
  let weights = 0;
  for (let r = Math.max(0, row); r <= Math.min(height - 1, row + 1); r++) {
    for (let c = Math.max(0, column); c <= Math.min(width - 1, column + 1); c++) {
      const value = values[r * width + c];
      if (Number.isNaN(value)) continue;
      const weight = (1 - Math.abs(x - 0.5 - c)) * (1 - Math.abs(y - 0.5 - r));
      sum += weight * value;
      weights += weight;
    }
  }
  return sum / weights;
}

/** The three channels of the glow on the map's grid, print filled from its surroundings. */
function filledGlow({ map, outline }: RedPrintView): [Plane, Plane, Plane] {
  const hidden: Mask = { ...map.printFree, values: map.printFree.values.map((free) => (free ? 0 : 1)) };
  const [red, green, blue] = fillPlanes([map.red, map.green, map.blue], hidden, map.pxPerMm, outline);
  return [red, green, blue];
}

/** Median X, Y and Z of the marks and of the glow under them; null when there is no cell with both. */
function coloursOver(core: Mask, glow: readonly [Plane, Plane, Plane], view: RedPrintView) {
  const { window, map } = view;
  const toMap = map.pxPerMm / window.pxPerMm;
  const marks: number[][] = [[], [], []];
  const glows: number[][] = [[], [], []];
  for (let i = 0; i < core.values.length; i++) {
    if (!core.values[i]) continue;
    const row = Math.floor(i / core.width);
    const x = (i - row * core.width + 0.5) * toMap;
    const y = (row + 0.5) * toMap;
    const mark = xyzFromLinearSrgb([window.red.values[i], window.green.values[i], window.blue.values[i]]);
    const under = xyzFromLinearSrgb([valueAt(glow[0], x, y), valueAt(glow[1], x, y), valueAt(glow[2], x, y)]);
    if (![...mark, ...under].every(Number.isFinite)) continue;
    for (let c = 0; c < 3; c++) {
      marks[c].push(mark[c]);
      glows[c].push(under[c]);
    }
  }
  if (marks[0].length === 0) return null;
  const medians = (values: readonly number[][]): Triple => [
    medianOf(values[0]),
    medianOf(values[1]),
    medianOf(values[2]),
  ];
  return { markXyz: medians(marks), glowXyz: medians(glows) };
}

/** The control: redness of the dark print's core, away from red marks, whose blurred rims are taken for dark. */
function darkRednessOf(glow: readonly [Plane, Plane, Plane], view: RedPrintView): number | null {
  const { pxPerMm } = view.window;
  const nearRed = dilateMask(view.print.red, rimOfRedMm * pxPerMm).values;
  const dark = { ...view.print.dark, values: view.print.dark.values.map((value, i) => (nearRed[i] ? 0 : value)) };
  if (areaMm2(dark, view) < leastAreaMm2) return null;
  const colours = coloursOver(coreOf(dark, pxPerMm), glow, view);
  return colours && rednessOf(colours.markXyz, colours.glowXyz);
}

function areaMm2(mask: Mask, { window }: RedPrintView): number {
  return mask.values.reduce((sum, value) => sum + value, 0) / window.pxPerMm ** 2;
}

/** Width of the strokes: twice the median distance along their ridges, mm; NaN without print. */
function strokeMmOf(red: Mask, pxPerMm: number): number {
  return (2 * medianOf(ridgeDistances(red))) / pxPerMm;
}

const notFound: RedPrintResult = {
  kind: 'not-found',
  code: 'RED_NOT_FOUND',
  reason: 'no red print was found in this photo: there is none, or this light does not show it as red',
};

function tooThin(strokeMm: number, strokePx: number): RedPrintResult {
  const reason = `the red strokes span only ${strokePx.toFixed(1)} pixels of the photo and need ${leastStrokePx} at least`;
  return { kind: 'too-thin', code: 'STROKE_TOO_THIN', reason, strokeMm, strokePx };
}

/**
 * How red the red print of one photo is, and how much darker than the glow.
 *
 * Core: the red mask less min(0.2 mm, 30 % of its largest inner distance). Median X, Y, Z over all cores pooled, against those
 * of the glow under them, filled from around the print. The stroke must span 4 photo pixels; from 4 to 6 the redness is
 * divided by the fill factor.
 *
 * Not told apart: print that is not red under this light, and no red print.
 *
 * @param view  not altered
 * @source definition: our own choice; parts at the functions used
 * @rule RP1, RP2, RP3, RP4, RP5, RP6, RP7
 */
export function redPrintFigures(view: RedPrintView, options: RedPrintOptions): RedPrintResult {
  const { red } = view.print;
  const { pxPerMm } = view.window;
  if (areaMm2(red, view) < leastAreaMm2) return notFound;
  const strokeMm = strokeMmOf(red, pxPerMm);
  const strokePx = strokeMm * options.photoPxPerMm;
  if (strokePx < leastStrokePx) return tooThin(strokeMm, strokePx);
  const glow = filledGlow(view);
  const colours = coloursOver(coreOf(red, pxPerMm), glow, view);
  if (!colours || !(colours.glowXyz[1] > 0)) return notFound;
  const { markXyz, glowXyz } = colours;
  const fill = fillFactor(strokePx);
  const redness = rednessOf(markXyz, glowXyz) / fill;
  const luminanceContrast = weberContrast(markXyz[1], glowXyz[1]);
  const width = widthFactor(strokeMm, options.viewingDistanceMm);
  const darkRedness = darkRednessOf(glow, view);
  return {
    kind: 'figures',
    figures: {
      markXyz,
      glowXyz,
      strokeMm,
      strokePx,
      fillFactor: fill,
      redness,
      luminanceContrast,
      deltaE00: markDifference(markXyz, glowXyz),
      widthFactor: width,
      visibility: markVisibility(redness, luminanceContrast, width),
      darkRedness,
      isControlOff: darkRedness !== null && Math.abs(darkRedness) >= darkRednessLimit,
    },
  };
}
