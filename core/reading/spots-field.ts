import { blurMasked } from '../base/gaussian';
import { assertSameShape, createMask, createPlane, type Mask, type Plane } from '../base/plane';
import { medianOf } from '../base/stats';
import { fillPlanes } from '../window/fill';
import type { GlowMap } from './glow-map';

/** What spots are searched in; all planes on the map's grid. */
export interface SpotField {
  readonly pxPerMm: number;
  /** Glow and what print hides of it: where a spot may lie. */
  readonly inside: Mask;
  /** Visible residual with the print filled, smoothed over 0.75 mm, ln units, positive = too bright; NaN outside. */
  readonly contrast: Plane;
  /** ln of light over the median of the glow, filled and smoothed alike; NaN outside. */
  readonly logRatio: Plane;
  /** What the same smoothing once more takes from the light, ln units: about what the first time has taken. */
  readonly smoothingLoss: Plane;
}

/** Smoothing of contrast and light, mm: as fine as the score looks. */
const smoothingMm = 0.75;

/** Marks the cells of one row or column that lie between its first and its last glowing cell. */
function spanLine(glow: Mask, inside: Mask, from: number, step: number, length: number): void {
  let first = -1;
  let last = -1;
  for (let i = 0; i < length; i++) {
    if (!glow.values[from + i * step]) continue;
    if (first < 0) first = i;
    last = i;
  }
  for (let i = first; first >= 0 && i <= last; i++) inside.values[from + i * step] = 1;
}

/** The glow with its gaps: cells between two glowing ones in their row or their column. A convex outline is never left. */
function enclosedBy(glow: Mask): Mask {
  const { width, height } = glow;
  const inside = createMask(width, height);
  for (let row = 0; row < height; row++) spanLine(glow, inside, row * width, 1, width);
  for (let column = 0; column < width; column++) spanLine(glow, inside, column, width, height);
  return inside;
}

/** ln of filled light, smoothed; NaN outside. Print must not pull a spot's place towards the glow beside it. */
function smoothedLog(filled: Plane, inside: Mask, pxPerMm: number): Plane {
  for (let i = 0; i < filled.values.length; i++) filled.values[i] = Math.log(filled.values[i]);
  const { blurred } = blurMasked(filled, inside, smoothingMm * pxPerMm);
  for (let i = 0; i < inside.values.length; i++) if (!inside.values[i]) blurred.values[i] = NaN;
  return blurred;
}

/**
 * The visible residual and the light, both without print, ready for the search for spots.
 *
 * @param map       not altered
 * @param residual  of `scoreEvenness`, ln units, NaN where there is no glow; not altered
 * @returns null when nothing glows
 * @source smoothing, and the median over the glow as what a spot is compared with: our own choice
 * @rule SP1
 */
export function spotField(map: GlowMap, residual: Plane): SpotField | null {
  const { pxPerMm, glow, relLuminance } = map;
  assertSameShape(glow, residual);
  const hidden = createMask(glow.width, glow.height, 1);
  const known = createMask(glow.width, glow.height);
  // The fill works on ln of light: e^residual goes through it unchanged.
  const contrastAsLight = createPlane(glow.width, glow.height, NaN);
  for (let i = 0; i < glow.values.length; i++) {
    if (!glow.values[i] || !Number.isFinite(residual.values[i]) || !(relLuminance.values[i] > 0)) continue;
    hidden.values[i] = 0;
    known.values[i] = 1;
    contrastAsLight.values[i] = Math.exp(residual.values[i]);
  }
  if (!known.values.includes(1)) return null;
  const inside = enclosedBy(known);
  const filled = fillPlanes([contrastAsLight, relLuminance], hidden, pxPerMm, inside);
  const [contrast, logRatio] = filled.map((plane) => smoothedLog(plane, inside, pxPerMm));
  const ofGlow = medianOf(Array.from(logRatio.values).filter((_, i) => known.values[i]));
  for (let i = 0; i < logRatio.values.length; i++) logRatio.values[i] -= ofGlow;
  const again = blurMasked(logRatio, inside, smoothingMm * pxPerMm).blurred;
  const smoothingLoss = { ...again, values: again.values.map((value, i) => logRatio.values[i] - value) };
  return { pxPerMm, inside, contrast, logRatio, smoothingLoss };
}
