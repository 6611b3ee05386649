import { blurMasked } from '../base/gaussian';
import { createMask, createPlane, type Mask, type Plane } from '../base/plane';
import { percentilesOf } from '../base/stats';
import { measuredCells } from './measured-cells';
import { aboveWithHysteresis, dilateMask, largestWithin } from './morphology';
import { printFreeBackground } from './print-background';
import { widestMarkMm } from './print-mask';
import type { RectifiedWindow } from './rectified';
import { luminanceWeights } from './rgb-weights';

/** Lit figures stand out at least so much from the black about them (ratio of light). */
const leastRatio = 3;
/** Black is never taken to be darker than this share of the brightest light: below it there is only noise. */
const blackShare = 0.02;
/** The figure's own light is the brightest so near: it reaches from a stroke's edge to its middle. */
const figureReachMm = 1;
/** A core has this share of the brightest within a stroke's reach: the lens fills the gaps of small figures with some of their light. */
const wholeShare = 0.8;
const strokeReachMm = 0.5;
/** The lit figures' blurred edge, left out of the core. */
const edgeMm = 0.2;

/** Luminance smoothed over 0.12 mm; NaN outside the mask. */
function smoothLuminance(window: RectifiedWindow, mask: Mask): Plane {
  const luminance = createPlane(mask.width, mask.height, NaN);
  for (let i = 0; i < mask.values.length; i++) {
    if (!mask.values[i]) continue;
    luminance.values[i] =
      luminanceWeights[0] * window.red.values[i] +
      luminanceWeights[1] * window.green.values[i] +
      luminanceWeights[2] * window.blue.values[i];
  }
  const { blurred } = blurMasked(luminance, mask, 0.12 * window.pxPerMm);
  for (let i = 0; i < mask.values.length; i++) if (!mask.values[i]) blurred.values[i] = NaN;
  return blurred;
}

function lightIn(luminance: Plane, mask: Mask): number[] {
  return Array.from(luminance.values).filter((_, i) => mask.values[i]);
}

/** Shrinks a mask by a disk, within another: what the complement, widened, does not reach. */
function erodeMask(mask: Mask, radiusPx: number): Mask {
  const complement: Mask = { ...mask, values: mask.values.map((value) => (value ? 0 : 1)) };
  const reached = dilateMask(complement, radiusPx);
  return { ...mask, values: mask.values.map((value, i) => (value && !reached.values[i] ? 1 : 0)) };
}

/**
 * Whether the window shows dark print on a glowing ground, or lit figures on black; null when that is not clear.
 *
 * q = median luminance / 98th percentile inside the outline. q > 0.2: 'dark' (the ground is lit); q < 0.08: 'light';
 * between, or when there is no light at all: null, and the user must say.
 *
 * @source our own choice; a ground with a hot spot of five times still counts as lit
 * @rule PM7
 */
export function printPolarityOf(window: RectifiedWindow, within: Mask): 'dark' | 'light' | null {
  const mask = measuredCells(window, within);
  const [middle, bright] = percentilesOf(lightIn(smoothLuminance(window, mask), mask), [50, 98]);
  if (!(bright > 1e-3)) return null;
  const share = middle / bright;
  if (share > 0.2) return 'dark';
  return share < 0.08 ? 'light' : null;
}

export interface LitPrint {
  /** Brighter than half-way between the black about a figure and the figure's own light. */
  readonly lit: Mask;
  /** `lit` less 0.2 mm of its edge and what the lens has filled: what may count as glow. */
  readonly core: Mask;
}

/** ln of light, with black held above the noise; 0 outside the mask. */
function logWithFloor(luminance: Plane, mask: Mask, floor: number): Plane {
  const log = createPlane(mask.width, mask.height);
  for (let i = 0; i < mask.values.length; i++) {
    if (mask.values[i]) log.values[i] = Math.log(Math.max(luminance.values[i], floor));
  }
  return log;
}

/**
 * Finds lit figures on a black dial.
 *
 * With l = ln Y smoothed over 0.12 mm (Y at least 0.02 of its 98th percentile), black = what l is without bright marks
 * (`printFreeBackground` of -l) and figure = the largest l within 1 mm: lit where Y > (Y_figure + Y_black) / 2, in
 * marks of which some cell has l - black > ln 3. Strokes wider than the widest mark are not found. Gaps between strokes that blur
 * has closed are lit, but not core: that has 0.8 of the largest l within 0.5 mm.
 *
 * @param window 10 cells a mm; not altered
 * @param within the outline (centre rule) less what is left out
 * @source our own choice
 * @rule PM8
 */
export function findLitPrint(window: RectifiedWindow, within: Mask): LitPrint {
  const mask = measuredCells(window, within);
  const { width, height } = mask;
  const luminance = smoothLuminance(window, mask);
  const [bright] = percentilesOf(lightIn(luminance, mask), [98]);
  if (!(bright > 0)) return { lit: createMask(width, height), core: createMask(width, height) };
  const log = logWithFloor(luminance, mask, blackShare * bright);
  const negative: Plane = { ...log, values: log.values.map((value) => -value) };
  const minusBlack = printFreeBackground(negative, mask, window.pxPerMm, widestMarkMm(window.heightMm));
  const figure = largestWithin(log, mask, figureReachMm * window.pxPerMm);
  const rise = createPlane(width, height);
  const aboveHalf = createMask(width, height);
  for (let i = 0; i < mask.values.length; i++) {
    if (!mask.values[i]) continue;
    rise.values[i] = log.values[i] + minusBlack.values[i];
    const halfWay = (Math.exp(figure.values[i]) + Math.exp(-minusBlack.values[i])) / 2;
    if (Math.exp(log.values[i]) > halfWay) aboveHalf.values[i] = 1;
  }
  const lit = aboveWithHysteresis(rise, aboveHalf, 0, Math.log(leastRatio));
  const core = erodeMask(lit, edgeMm * window.pxPerMm);
  const strokes = largestWithin(log, mask, strokeReachMm * window.pxPerMm);
  const dimmest = Math.log(wholeShare);
  for (let i = 0; i < core.values.length; i++) {
    if (log.values[i] - strokes.values[i] < dimmest) core.values[i] = 0;
  }
  return { lit, core };
}
