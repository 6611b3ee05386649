import type { Mask, Plane } from '../base/plane';

/**
 * The lamp's light at 4 cells a mm, print-free. Cell (i, j) covers [i/4, (i+1)/4) x [j/4, (j+1)/4) mm.
 * Light planes hold the mean over the print-free part of each cell of the full outline, NaN where nothing is free.
 */
export interface GlowMap {
  readonly pxPerMm: number;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly red: Plane;
  readonly green: Plane;
  readonly blue: Plane;
  /** Relative luminance (or green alone, scaled to it, when red is clipped). */
  readonly relLuminance: Plane;
  /** Print-free cells of the full outline: what smoothing may use. */
  readonly printFree: Mask;
  /** Cells that count: whole inside the eroded outline, not print, not left out, finite. */
  readonly glow: Mask;
  /** Cells that would count if they were not print. */
  readonly hidden: Mask;
  /** Share of the window's outline (eroded) that is glow. */
  readonly glowShare: number;
  /** Border that was eroded, mm. */
  readonly borderMm: number;
}
