import { createMask, type Mask } from '../base/plane';
import { findLitPrint, printPolarityOf } from '../window/lit-print';
import { outlineMask } from '../window/outline';
import { printMaskOf } from '../window/print-mask';
import type { PrintMask, RectifiedWindow } from '../window/rectified';
import { withCarriedPrint, type CarriedPrint } from './carried-print';
import { evennessFromGreen } from './gates/clipping';
import { countGlow, type GlowFacts } from './glow-facts';
import type { GlowMap } from './glow-map';
import { buildGlowMap } from './glow-map-build';
import { glowOutlineOf } from './glow-outline';
import type { PlacedWindow } from './placed-window';

/** Cells a mm: the straightened window, in which print is found, and the map that all figures come from. */
export const windowPxPerMm = 10;
export const mapPxPerMm = 4;

/** How much of a map cell's part in the outline must be free for it to count; lit figures are narrow. */
export const leastFreeShare = { usual: 0.5, litFigures: 0.25 } as const;

/** The window straightened, its print found, and the map of its glow. */
export interface GlowView {
  readonly window: RectifiedWindow;
  readonly print: PrintMask;
  readonly printMaskFrom: CarriedPrint['from'] | 'photo' | 'painted' | 'none';
  /** null: it could not be decided whether the print is dark or lit. */
  readonly polarity: 'dark' | 'none' | 'light' | null;
  readonly map: GlowMap;
  /** Full outline less what is left out, on the straightened window's grid. */
  readonly within: Mask;
  /** Full outline on the map's grid, by the cells' centres. */
  readonly outline: Mask;
  readonly facts: GlowFacts;
  /** The glow on the straightened window's grid. */
  readonly glowFine: Mask;
  /** Print (widened) over the full outline, 0..1. */
  readonly printShare: number;
  readonly usesGreen: boolean;
}

/** The cells of a mask that none of the others has. */
function without(mask: Mask, ...others: readonly Mask[]): Mask {
  const values = mask.values.slice();
  for (const other of others) for (let i = 0; i < values.length; i++) if (other.values[i]) values[i] = 0;
  return { ...mask, values };
}

function complement(mask: Mask): Mask {
  return { ...mask, values: mask.values.map((value) => (value ? 0 : 1)) };
}

function shareOf(part: Mask, whole: Mask): number {
  let inside = 0;
  let both = 0;
  for (let i = 0; i < whole.values.length; i++) {
    if (!whole.values[i]) continue;
    inside += 1;
    both += part.values[i];
  }
  return inside ? both / inside : 0;
}

/** The glow of a black dial is its lit figures, less their blurred edge: everything else counts as covered. @rule RD9 */
function allButLitFigures(window: RectifiedWindow, within: Mask): PrintMask {
  const { core } = findLitPrint(window, within);
  const none = createMask(core.width, core.height);
  return { dark: none, red: none, covered: complement(core) };
}

/**
 * Finds the print of a window seen straight on and builds the map of its glow. Where red or blue is clipped and green is
 * not, the light is taken from green.
 *
 * @param window  at `windowPxPerMm`; not altered
 * @param carried print that is known from another photo: see `withCarriedPrint`; not for lit figures, whose light is their own
 * @rule RD2
 */
export function viewGlow(
  window: RectifiedWindow,
  placed: PlacedWindow,
  carried: CarriedPrint | null = null,
  onStage?: (stage: string) => void,
): GlowView {
  const { widthMm, heightMm, shape, print: kind } = placed.spec;
  const outline = glowOutlineOf(placed.spec, windowPxPerMm, mapPxPerMm);
  const { full: outlineFine, leftOut, borderMm: border } = outline;
  const within = without(outlineFine, leftOut);
  const polarity = kind === 'auto' ? printPolarityOf(window, within) : kind;
  const isLit = polarity === 'light';
  const taken = isLit ? null : carried;
  const own = isLit ? allButLitFigures(window, within) : printMaskOf(window, placed.spec);
  const print = taken ? withCarriedPrint(own, taken, window) : own;
  onStage?.('print');
  const erodedFine = outlineMask(shape, widthMm, heightMm, windowPxPerMm, border, 'whole');
  const glowFine = without(erodedFine, print.covered, leftOut);
  const facts = countGlow(window, glowFine);
  const usesGreen = evennessFromGreen(facts);
  const masks = { print, outline: outline.inner, erodedWhole: outline.erodedWhole, leftOut };
  const freeShare = isLit ? leastFreeShare.litFigures : leastFreeShare.usual;
  const options = {
    widthMm,
    heightMm,
    borderMm: border,
    pxPerMm: mapPxPerMm,
    useGreen: usesGreen,
    leastFreeShare: freeShare,
  };
  // The black between lit figures hides no light: there is none to be seen.
  const printShare = isLit ? 0 : shareOf(print.covered, outlineFine);
  const map = buildGlowMap(window, masks, options);
  onStage?.('map');
  const isPainted = placed.spec.paintedRed.length + placed.spec.paintedDark.length > 0;
  return {
    window,
    print,
    printMaskFrom:
      printShare === 0 && !isLit ? 'none' : kind === 'none' && isPainted ? 'painted' : (taken?.from ?? 'photo'),
    polarity,
    map,
    within,
    outline: outlineMask(shape, widthMm, heightMm, mapPxPerMm, 0, 'centre'),
    facts,
    glowFine,
    printShare,
    usesGreen,
  };
}
