import type { Plane } from '../../base/plane';
import type { PhotoPoint } from '../../base/points';
import { areaOf, convexHull } from './hull';
import type { LightGrid } from './light-grid';

/** A patch brighter than its surroundings, as its convex hull in photo pixels. */
export interface BrightRegion {
  readonly hull: readonly PhotoPoint[];
  readonly areaPx: number;
  /** Share of the hull that is above the level: print and notches take away from it. */
  readonly filled: number;
}

/** Each level is this much of the one above: a window that stands out by a quarter is met by at least one level. */
const levelRatio = 0.8;
/** Down to 0.8^32 = 1/1260 of the brightest: a dark window beside a lamp that shines into the camera. */
const levelCount = 32;
/** Less than that is sensor noise in any photo: two thirds of one code of 8 bits, sRGB. */
const darkestLevel = 0.0002;
/** Shares of the photo's longer side: smaller patches are lamps, letters and reflections, too small to be measured. */
export const leastLongShare = 0.05;
export const leastShortShare = 0.02;
/** In a small photo, too few cells to tell a window by its outline. */
const leastCells = 6;
/** A window that fills more than that of the frame touches it, or is no window but the picture. */
const largestFrameShare = 0.8;
/** Print and pointers cover less than half of any window. */
const leastFilled = 0.5;

interface Patch {
  count: number;
  touchesFrame: boolean;
  top: number;
  bottom: number;
  left: number;
  right: number;
}

/** Marks the patch that holds `start` and tells its extent; `firsts` and `lasts` get its extent row by row. */
function growPatch(
  above: Uint8Array,
  { width, height }: Plane,
  start: number,
  stack: Int32Array,
  firsts: Int32Array,
  lasts: Int32Array,
): Patch {
  const startRow = Math.floor(start / width);
  const patch = { count: 0, touchesFrame: false, top: startRow, bottom: startRow, left: width, right: 0 };
  let depth = 0;
  stack[depth++] = start;
  above[start] = 2;
  while (depth > 0) {
    const at = stack[--depth];
    const row = Math.floor(at / width);
    const column = at - row * width;
    if (row < patch.top) patch.top = row;
    if (row > patch.bottom) patch.bottom = row;
    if (column < patch.left) patch.left = column;
    if (column > patch.right) patch.right = column;
    if (patch.count++ === 0 || firsts[row] < 0 || column < firsts[row]) firsts[row] = column;
    if (lasts[row] < column) lasts[row] = column;
    if (column > 0 && above[at - 1] === 1) above[(stack[depth++] = at - 1)] = 2;
    if (column < width - 1 && above[at + 1] === 1) above[(stack[depth++] = at + 1)] = 2;
    if (row > 0 && above[at - width] === 1) above[(stack[depth++] = at - width)] = 2;
    if (row < height - 1 && above[at + width] === 1) above[(stack[depth++] = at + width)] = 2;
  }
  patch.touchesFrame = patch.top === 0 || patch.left === 0 || patch.bottom === height - 1 || patch.right === width - 1;
  return patch;
}

function sizeFits(patch: Patch, { width, height }: Plane): boolean {
  const across = patch.right - patch.left + 1;
  const down = patch.bottom - patch.top + 1;
  if (patch.touchesFrame || across * down > largestFrameShare * width * height) return false;
  const longSide = Math.max(width, height);
  return (
    Math.max(across, down) >= Math.max(leastCells, leastLongShare * longSide) &&
    Math.min(across, down) >= Math.max(leastCells, leastShortShare * longSide)
  );
}

function regionOf(patch: Patch, firsts: Int32Array, lasts: Int32Array, pxPerCell: number): BrightRegion {
  const rim: PhotoPoint[] = [];
  for (let row = patch.top; row <= patch.bottom; row++) {
    for (const edgeRow of [row, row + 1]) {
      rim.push({ column: firsts[row] * pxPerCell, row: edgeRow * pxPerCell });
      rim.push({ column: (lasts[row] + 1) * pxPerCell, row: edgeRow * pxPerCell });
    }
  }
  const hull = convexHull(rim);
  const areaPx = areaOf(hull);
  return { hull, areaPx, filled: (patch.count * pxPerCell * pxPerCell) / areaPx };
}

/** Patches of one level; `above` holds 1 where the light is above it. */
function regionsOfLevel(above: Uint8Array, plane: Plane, pxPerCell: number, stack: Int32Array): BrightRegion[] {
  const firsts = new Int32Array(plane.height);
  const lasts = new Int32Array(plane.height);
  const regions: BrightRegion[] = [];
  firsts.fill(-1);
  lasts.fill(-1);
  for (let start = 0; start < above.length; start++) {
    if (above[start] !== 1) continue;
    const patch = growPatch(above, plane, start, stack, firsts, lasts);
    if (sizeFits(patch, plane)) regions.push(regionOf(patch, firsts, lasts, pxPerCell));
    firsts.fill(-1, patch.top, patch.bottom + 1);
    lasts.fill(-1, patch.top, patch.bottom + 1);
  }
  return regions;
}

/**
 * Patches that are brighter than all that surrounds them, at many levels of light.
 *
 * The levels fall from the photo's brightest cell by a fifth each. At each, cells above it that hang together (4
 * neighbours) are a patch; a patch that touches the frame, is too small or mostly holes is left out. A window shows up at
 * every level between its darkest rim and the brightest place just outside.
 *
 * @param grid  reduced light, marks filled; not altered
 * @source our own choice, after maximally stable extremal regions (Matas et al. 2002, from memory)
 * @rule WN13
 */
export function brightRegions({ light, pxPerCell }: LightGrid): BrightRegion[] {
  let brightest = 0;
  for (const value of light.values) if (value > brightest) brightest = value;
  const stack = new Int32Array(light.values.length);
  const above = new Uint8Array(light.values.length);
  const regions: BrightRegion[] = [];
  for (let k = 1, level = brightest * levelRatio; k <= levelCount && level > darkestLevel; k++, level *= levelRatio) {
    for (let i = 0; i < above.length; i++) above[i] = light.values[i] > level ? 1 : 0;
    for (const region of regionsOfLevel(above, light, pxPerCell, stack)) {
      if (region.filled >= leastFilled) regions.push(region);
    }
  }
  return regions;
}
