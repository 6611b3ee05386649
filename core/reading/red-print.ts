import type { Mask } from '../base/plane';
import { dilateMask } from '../window/morphology';
import { weberContrast } from './contrast';
import {
  coloursOver,
  filledGlow,
  type Glow,
  type PrintColours,
  type RedPrintView,
  strengthOf,
} from './red-print-colours';
import { coreOf } from './red-print-distance';
import { fillFactor, markDifference, markVisibility, rednessOf, widthFactor } from './red-print-formulas';
import { strokeWidthCells } from './stroke-width';

export interface RedPrintOptions {
  /** Resolution of the photo itself on the window. */
  readonly photoPxPerMm: number;
  readonly viewingDistanceMm: number;
}

/** The red print of one photo. */
export interface RedPrintFigures extends PrintColours {
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

/** The control: redness of the dark print's core, away from red marks, whose blurred rims are taken for dark. */
function darkRednessOf(glow: Glow, view: RedPrintView): number | null {
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
  const glow = filledGlow(view);
  const colours = coloursOver(coreOf(red, pxPerMm), glow, view);
  if (!colours || !(colours.glowXyz[1] > 0)) return notFound;
  const strokeMm = strokeWidthCells(red, strengthOf(glow, colours, view), pxPerMm) / pxPerMm;
  const strokePx = strokeMm * options.photoPxPerMm;
  if (strokePx < leastStrokePx) return tooThin(strokeMm, strokePx);
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
