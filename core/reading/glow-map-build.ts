import { assertSameShape, createMask, createPlane, type Mask, type Plane } from '../base/plane';
import { srgbSpace } from '../colour/spaces';
import type { PrintMask, RectifiedWindow } from '../window/rectified';
import type { GlowMap } from './glow-map';

/** The masks that say where the glow may lie. */
export interface GlowMasks {
  readonly print: PrintMask;
  /** The full outline on the window's grid, by the cells' centres. */
  readonly outline: Mask;
  /** The outline shrunk by the border on the map's grid, whole cells only. */
  readonly erodedWhole: Mask;
  /** Patches that the user left out, on the window's grid. */
  readonly leftOut: Mask;
}

export interface GlowMapOptions {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly borderMm: number;
  /** Cells a mm of the map; 4 everywhere in the product. */
  readonly pxPerMm: number;
  /** Take the evenness from green, as red is clipped. */
  readonly useGreen: boolean;
  /** A cell counts when so much of its part in the outline is free; left out: half. Lit figures are narrow: a quarter. */
  readonly leastFreeShare?: number;
}

/** For each map cell along one axis, in window cells: the first under it, and how much of each (`most` numbers a map cell). */
interface Overlaps {
  readonly first: Int32Array;
  readonly lengths: Float64Array;
  readonly most: number;
}

function overlapsAlong(mapCells: number, windowCells: number, ratio: number): Overlaps {
  const most = Math.ceil(ratio) + 1;
  const first = new Int32Array(mapCells);
  const lengths = new Float64Array(mapCells * most);
  for (let cell = 0; cell < mapCells; cell++) {
    const from = cell * ratio;
    const to = from + ratio;
    first[cell] = Math.floor(from);
    for (let i = 0; i < most; i++) {
      const index = first[cell] + i;
      const length = Math.min(to, index + 1) - Math.max(from, index);
      if (index < windowCells && length > 1e-9) lengths[cell * most + i] = length;
    }
  }
  return { first, lengths, most };
}

/** Window cells that show the lamp's light: in the outline, measured in all channels, not print, not left out. */
function freeCells(window: RectifiedWindow, { print, outline, leftOut }: GlowMasks): Mask {
  const free = createMask(window.green.width, window.green.height);
  for (let i = 0; i < free.values.length; i++) {
    const light = window.red.values[i] + window.green.values[i] + window.blue.values[i];
    const isFree = outline.values[i] && !print.covered.values[i] && !leftOut.values[i] && Number.isFinite(light);
    free.values[i] = isFree ? 1 : 0;
  }
  return free;
}

/** Colour planes and the print-free mask at the map's resolution, weighted by area. */
function resample(
  window: RectifiedWindow,
  free: Mask,
  outline: Mask,
  { pxPerMm, leastFreeShare = 0.5 }: GlowMapOptions,
  { width, height }: Mask,
) {
  const ratio = window.pxPerMm / pxPerMm;
  const columns = overlapsAlong(width, window.green.width, ratio);
  const rows = overlapsAlong(height, window.green.height, ratio);
  const { red: ofRed, green: ofGreen, blue: ofBlue } = window;
  const [red, green, blue] = [0, 1, 2].map(() => createPlane(width, height, NaN));
  const printFree = createMask(width, height);
  for (let cell = 0; cell < printFree.values.length; cell++) {
    const row = Math.floor(cell / width);
    const column = cell - row * width;
    let sumRed = 0;
    let sumGreen = 0;
    let sumBlue = 0;
    let freeArea = 0;
    let outlineArea = 0;
    for (let down = 0; down < rows.most; down++) {
      const across = rows.lengths[row * rows.most + down];
      const line = (rows.first[row] + down) * window.green.width + columns.first[column];
      for (let right = 0; across > 0 && right < columns.most; right++) {
        const area = across * columns.lengths[column * columns.most + right];
        if (area === 0) continue;
        const at = line + right;
        if (outline.values[at]) outlineArea += area;
        if (!free.values[at]) continue;
        freeArea += area;
        sumRed += area * ofRed.values[at];
        sumGreen += area * ofGreen.values[at];
        sumBlue += area * ofBlue.values[at];
      }
    }
    if (freeArea === 0) continue;
    red.values[cell] = sumRed / freeArea;
    green.values[cell] = sumGreen / freeArea;
    blue.values[cell] = sumBlue / freeArea;
    // Half to the last bit: areas are sums of products of binary fractions at 10 to 4 cells a mm.
    if (freeArea >= leastFreeShare * outlineArea - 1e-9) printFree.values[cell] = 1;
  }
  return { red, green, blue, printFree };
}

/** Y of linear sRGB, cell by cell. */
function luminanceOf(red: Plane, green: Plane, blue: Plane): Plane {
  const [ofRed, ofGreen, ofBlue] = srgbSpace.xyzFromRgb[1];
  const luminance = createPlane(green.width, green.height);
  for (let i = 0; i < luminance.values.length; i++) {
    luminance.values[i] = ofRed * red.values[i] + ofGreen * green.values[i] + ofBlue * blue.values[i];
  }
  return luminance;
}

/** Mean of Y over mean of green where red is not clipped (anywhere on the glow, if it is clipped all over). */
function luminanceOverGreen(luminance: Plane, green: Plane, glow: Mask, redClipped: (cell: number) => boolean): number {
  const ratioWhere = (counts: (cell: number) => boolean): number => {
    let ofLuminance = 0;
    let ofGreen = 0;
    for (let i = 0; i < glow.values.length; i++) {
      if (!glow.values[i] || !counts(i)) continue;
      ofLuminance += luminance.values[i];
      ofGreen += green.values[i];
    }
    return ofLuminance / ofGreen;
  };
  const clean = ratioWhere((cell) => !redClipped(cell));
  if (clean > 0) return clean;
  const anywhere = ratioWhere(() => true);
  return anywhere > 0 ? anywhere : 1;
}

/** Whether the window cell under the middle of a map cell has a flag. */
function flagUnder(window: RectifiedWindow, flags: Mask, mapWidth: number, pxPerMm: number): (cell: number) => boolean {
  const ratio = window.pxPerMm / pxPerMm;
  return (cell) => {
    const row = Math.floor(cell / mapWidth);
    const windowRow = Math.min(flags.height - 1, Math.floor((row + 0.5) * ratio));
    const windowColumn = Math.min(flags.width - 1, Math.floor((cell - row * mapWidth + 0.5) * ratio));
    return flags.values[windowRow * flags.width + windowColumn] === 1;
  };
}

/**
 * The lamp's light on the map's grid, from the straightened window.
 *
 * A map cell holds the mean, weighted by area, over its part that is print-free, measured and not left out. It is print-free
 * when that is at least half (or `leastFreeShare`) of its part in the outline, and glow when it also lies whole in the shrunk outline.
 * With `useGreen` the relative luminance is green times (mean Y / mean green where red is whole): the glow has one colour.
 *
 * @param window  not altered; its pxPerMm need not be a multiple of the map's (10 to 4 is usual)
 * @returns planes NaN where nothing of a cell is free; glowShare 0..1 of the shrunk outline's cells, 0 when it has none
 * @throws RangeError when the masks do not lie on the grids named
 * @source our own choice
 * @rule LU1, LU2
 */
export function buildGlowMap(window: RectifiedWindow, masks: GlowMasks, options: GlowMapOptions): GlowMap {
  const { widthMm, heightMm, borderMm, pxPerMm, useGreen } = options;
  for (const mask of [masks.outline, masks.leftOut, masks.print.covered]) assertSameShape(window.green, mask);
  const { width, height } = masks.erodedWhole;
  const free = freeCells(window, masks);
  const { red, green, blue, printFree } = resample(window, free, masks.outline, options, masks.erodedWhole);
  const glow = createMask(width, height);
  const hidden = createMask(width, height);
  const isLeftOut = flagUnder(window, masks.leftOut, width, pxPerMm);
  let cellsInside = 0;
  let cellsGlow = 0;
  for (let i = 0; i < glow.values.length; i++) {
    if (!masks.erodedWhole.values[i]) continue;
    cellsInside += 1;
    glow.values[i] = printFree.values[i];
    if (!printFree.values[i] && !isLeftOut(i)) hidden.values[i] = 1;
    cellsGlow += glow.values[i];
  }
  const luminance = luminanceOf(red, green, blue);
  const relLuminance = useGreen
    ? scaled(green, luminanceOverGreen(luminance, green, glow, flagUnder(window, window.redClipped, width, pxPerMm)))
    : luminance;
  const glowShare = cellsInside ? cellsGlow / cellsInside : 0;
  return { pxPerMm, widthMm, heightMm, red, green, blue, relLuminance, printFree, glow, hidden, glowShare, borderMm };
}

function scaled(plane: Plane, factor: number): Plane {
  return { ...plane, values: plane.values.map((value) => factor * value) };
}
