import type { PhotoFacts } from '../photo/decoded-photo';
import { toneMappingHints } from '../photo/tone-mapping';
import { frameDistancePx } from './checks/frame-distance';
import { printSharpness } from './checks/print-sharpness';
import { findReflections, type Reflection } from './checks/reflection';
import { findStripes } from './checks/stripes';
import type { GlowView } from './glow-view';
import type { PlacedWindow } from './placed-window';

/** What the gates ask of the photo beside the counts of its glow. */
export interface PhotoChecks {
  /** 10-90 % width of the print's edges; null without print. */
  readonly edgeMm: number | null;
  readonly edgePx: number | null;
  /** Crest over trough minus 1 of stripes along the sensor's rows or columns; null when there are none. */
  readonly stripesPeakToPeak: number | null;
  /** From the window's rim to the photo's edge; negative beyond it. */
  readonly frameDistancePx: number;
  /** Largest patch that the pane reflects, and the area of all over the window's; null when there is none. */
  readonly reflection: { readonly largest: Reflection; readonly share: number } | null;
  /** What the photo's notes say of light that was changed from place to place. */
  readonly toneHints: readonly string[];
  /** They say that it was. */
  readonly isToneMapped: boolean;
}

/** Runs the checks of one photo that look at its pixels and notes. Lit figures have neither ground nor print to look at. @rule RD11 */
export function checkPhoto(view: GlowView, placed: PlacedWindow, facts: PhotoFacts): PhotoChecks {
  const { window, print, map, glowFine } = view;
  const { widthPx, heightPx } = facts;
  const { pxPerMm, homography, spec } = placed;
  const hasGround = view.polarity === 'dark' || view.polarity === 'none';
  const { edgeMm, edgePx } = hasGround ? printSharpness(window, print, pxPerMm) : { edgeMm: null, edgePx: null };
  const stripes = hasGround ? findStripes(map, homography, { widthPx, heightPx, pxPerMm }) : null;
  const reflections = hasGround ? findReflections(window, glowFine) : [];
  const areaMm2 = reflections.reduce((sum, one) => sum + one.areaMm2, 0);
  return {
    edgeMm,
    edgePx,
    stripesPeakToPeak: stripes?.peakToPeak ?? null,
    frameDistancePx: frameDistancePx(spec, homography, { widthPx, heightPx }),
    reflection: reflections.length
      ? { largest: reflections[0], share: areaMm2 / (spec.widthMm * spec.heightMm) }
      : null,
    toneHints: facts.toneMappingHints,
    isToneMapped: facts.toneMappingHints.includes(toneMappingHints.hdr),
  };
}
