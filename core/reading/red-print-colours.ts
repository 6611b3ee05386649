import { createPlane, type Mask, type Plane } from '../base/plane';
import { medianOf } from '../base/stats';
import type { Triple } from '../colour/matrix3';
import { xyzFromLinearSrgb } from '../colour/spaces';
import { fillPlanes } from '../window/fill';
import { dilateMask } from '../window/morphology';
import type { GlowView } from './glow-view';
import { beyondMm } from './stroke-width';

export type RedPrintView = Pick<GlowView, 'window' | 'print' | 'map' | 'outline'>;

/** Red, green and blue of the glow on the map's grid, print filled. */
export type Glow = readonly [Plane, Plane, Plane];

/** Median colour of the marks' cores and of the glow under them, 1 = full scale, D65. */
export interface PrintColours {
  readonly markXyz: Triple;
  readonly glowXyz: Triple;
}

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

/** A channel in which nothing of the glow is above 0, as blue behind amber light once the room's is subtracted, is dark. */
function orDark(filled: Plane, outline: Mask): Plane {
  if (filled.values.some((value) => !Number.isNaN(value))) return filled;
  return { ...filled, values: Float32Array.from(outline.values, (inside) => (inside ? 0 : NaN)) };
}

/** The three channels of the glow on the map's grid, print filled from its surroundings. @source see `fillPlanes` @rule RP2 */
export function filledGlow({ map, outline }: RedPrintView): Glow {
  const hidden: Mask = { ...map.printFree, values: map.printFree.values.map((free) => (free ? 0 : 1)) };
  const filled = fillPlanes([map.red, map.green, map.blue], hidden, map.pxPerMm, outline);
  const [red, green, blue] = filled.map((plane) => orDark(plane, outline));
  return [red, green, blue];
}

/** Colour of a cell of the window and of the glow under it, XYZ; null where one has no value. */
function coloursAt(i: number, glow: Glow, { window, map }: RedPrintView) {
  const toMap = map.pxPerMm / window.pxPerMm;
  const row = Math.floor(i / window.red.width);
  const x = (i - row * window.red.width + 0.5) * toMap;
  const y = (row + 0.5) * toMap;
  const mark = xyzFromLinearSrgb([window.red.values[i], window.green.values[i], window.blue.values[i]]);
  const under = xyzFromLinearSrgb([valueAt(glow[0], x, y), valueAt(glow[1], x, y), valueAt(glow[2], x, y)]);
  return mark.every(Number.isFinite) && under.every(Number.isFinite) ? { mark, under } : null;
}

/** Median X, Y and Z of the marks and of the glow under them; null when there is no cell with both. @source our own choice @rule RP2 */
export function coloursOver(core: Mask, glow: Glow, view: RedPrintView) {
  const marks: number[][] = [[], [], []];
  const glows: number[][] = [[], [], []];
  for (let i = 0; i < core.values.length; i++) {
    if (!core.values[i]) continue;
    const colours = coloursAt(i, glow, view);
    if (!colours) continue;
    for (let c = 0; c < 3; c++) {
      marks[c].push(colours.mark[c]);
      glows[c].push(colours.under[c]);
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

/**
 * How much of the print each cell about it shows: what it lacks of the light under it, over the luminance there, along what the
 * print's cores lack. Linear in the light, so a blurred edge lies at half; for red that a light shows as dark, too.
 *
 * @source our own choice
 * @rule RP1
 */
export function strengthOf(glow: Glow, { markXyz, glowXyz }: PrintColours, view: RedPrintView): Plane {
  const about = dilateMask(view.print.red, (beyondMm + 0.2) * view.window.pxPerMm);
  const strength = createPlane(about.width, about.height, NaN);
  for (let i = 0; i < about.values.length; i++) {
    const colours = about.values[i] ? coloursAt(i, glow, view) : null;
    if (!colours) continue;
    const { mark, under } = colours;
    const along = [0, 1, 2].reduce((sum, c) => sum + (under[c] - mark[c]) * (glowXyz[c] - markXyz[c]), 0);
    strength.values[i] = along / under[1];
  }
  return strength;
}
