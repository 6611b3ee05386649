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
/** Fewer cells that hang together cannot be so many across and down. */
const fewestCells = 2 * leastCells - 1;
/** A window that fills more than that of the frame touches it, or is no window but the picture. */
const largestFrameShare = 0.8;
/** Print and pointers cover less than half of any window. */
const leastFilled = 0.5;

/** A patch's size and extent, and the first of its cells in reading order. */
interface Patch {
  readonly count: number;
  readonly first: number;
  readonly top: number;
  readonly bottom: number;
  readonly left: number;
  readonly right: number;
}

/**
 * Cells joined to patches, one after the other as the level falls: a cell that was above a level is above all lower ones, so that
 * patches only grow and meet. Each is a tree of cells with its extent kept at the root.
 *
 * @source disjoint sets: Tarjan 1975 (from memory)
 */
class GrowingPatches {
  /** The cell above it in its tree; -1 while the cell is below the level. */
  private readonly parents: Int32Array;
  private readonly counts: Int32Array;
  private readonly firsts: Int32Array;
  private readonly tops: Int32Array;
  private readonly bottoms: Int32Array;
  private readonly lefts: Int32Array;
  private readonly rights: Int32Array;

  constructor(
    private readonly width: number,
    height: number,
  ) {
    const cells = width * height;
    this.parents = new Int32Array(cells).fill(-1);
    this.counts = new Int32Array(cells);
    this.firsts = new Int32Array(cells);
    this.tops = new Int32Array(cells);
    this.bottoms = new Int32Array(cells);
    this.lefts = new Int32Array(cells);
    this.rights = new Int32Array(cells);
  }

  /** The root of the cell's patch; -1 below the level. */
  rootOf(cell: number): number {
    const { parents } = this;
    let at = cell;
    while (at >= 0 && parents[at] !== at) {
      const above = parents[at];
      if (above >= 0) parents[at] = parents[above];
      at = above;
    }
    return at;
  }

  /** Takes in one cell, and joins what it touches (4 neighbours). */
  add(cell: number): void {
    const { width, parents } = this;
    const row = Math.floor(cell / width);
    const column = cell - row * width;
    parents[cell] = cell;
    this.counts[cell] = 1;
    this.firsts[cell] = cell;
    this.tops[cell] = this.bottoms[cell] = row;
    this.lefts[cell] = this.rights[cell] = column;
    if (column > 0 && parents[cell - 1] >= 0) this.join(cell, cell - 1);
    if (column < width - 1 && parents[cell + 1] >= 0) this.join(cell, cell + 1);
    if (row > 0 && parents[cell - width] >= 0) this.join(cell, cell - width);
    if (cell + width < parents.length && parents[cell + width] >= 0) this.join(cell, cell + width);
  }

  private join(a: number, b: number): void {
    let into = this.rootOf(a);
    let from = this.rootOf(b);
    if (into === from) return;
    if (this.counts[into] < this.counts[from]) [into, from] = [from, into];
    this.parents[from] = into;
    this.counts[into] += this.counts[from];
    this.firsts[into] = Math.min(this.firsts[into], this.firsts[from]);
    this.tops[into] = Math.min(this.tops[into], this.tops[from]);
    this.bottoms[into] = Math.max(this.bottoms[into], this.bottoms[from]);
    this.lefts[into] = Math.min(this.lefts[into], this.lefts[from]);
    this.rights[into] = Math.max(this.rights[into], this.rights[from]);
  }

  countOf(root: number): number {
    return this.counts[root];
  }

  patchAt(root: number): Patch {
    return {
      count: this.counts[root],
      first: this.firsts[root],
      top: this.tops[root],
      bottom: this.bottoms[root],
      left: this.lefts[root],
      right: this.rights[root],
    };
  }
}

function sizeFits(patch: Patch, { width, height }: Plane): boolean {
  const across = patch.right - patch.left + 1;
  const down = patch.bottom - patch.top + 1;
  const touchesFrame = patch.top === 0 || patch.left === 0 || patch.bottom === height - 1 || patch.right === width - 1;
  if (touchesFrame || across * down > largestFrameShare * width * height) return false;
  const longSide = Math.max(width, height);
  return (
    Math.max(across, down) >= Math.max(leastCells, leastLongShare * longSide) &&
    Math.min(across, down) >= Math.max(leastCells, leastShortShare * longSide)
  );
}

/** The patch as its hull: from each row's first cell to its last. */
function regionOf(patches: GrowingPatches, root: number, width: number, pxPerCell: number): BrightRegion {
  const { top, bottom, left, right, count } = patches.patchAt(root);
  const rim: PhotoPoint[] = [];
  for (let row = top; row <= bottom; row++) {
    let first = left;
    let last = right;
    while (patches.rootOf(row * width + first) !== root) first += 1;
    while (patches.rootOf(row * width + last) !== root) last -= 1;
    for (const edgeRow of [row, row + 1]) {
      rim.push({ column: first * pxPerCell, row: edgeRow * pxPerCell });
      rim.push({ column: (last + 1) * pxPerCell, row: edgeRow * pxPerCell });
    }
  }
  const hull = convexHull(rim);
  const areaPx = areaOf(hull);
  return { hull, areaPx, filled: (count * pxPerCell * pxPerCell) / areaPx };
}

/** Cells in the order of the first level that they are above; those of `levels[k]` end before `ends[k]`. */
function cellsByLevel(
  light: Plane,
  levels: readonly number[],
): { readonly order: Int32Array; readonly ends: number[] } {
  const { values } = light;
  const lowest = levels.length - 1;
  const levelOf = new Uint8Array(values.length).fill(levels.length);
  const counts = new Int32Array(levels.length);
  for (let i = 0; i < values.length; i++) {
    if (!(values[i] > levels[lowest])) continue;
    let [from, to] = [0, lowest];
    while (from < to) {
      const middle = (from + to) >> 1;
      if (values[i] > levels[middle]) to = middle;
      else from = middle + 1;
    }
    levelOf[i] = from;
    counts[from] += 1;
  }
  const ends: number[] = [];
  counts.forEach((count, k) => ends.push(count + (k > 0 ? ends[k - 1] : 0)));
  const next = Int32Array.from(ends, (end, k) => end - counts[k]);
  const order = new Int32Array(ends[lowest]);
  for (let i = 0; i < values.length; i++) if (levelOf[i] <= lowest) order[next[levelOf[i]]++] = i;
  return { order, ends };
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
  const brightest = light.values.reduce((most, value) => (value > most ? value : most), 0);
  const levels: number[] = [];
  for (let k = 1, level = brightest * levelRatio; k <= levelCount && level > darkestLevel; k++, level *= levelRatio) {
    levels.push(level);
  }
  if (levels.length === 0) return [];
  const patches = new GrowingPatches(light.width, light.height);
  const regions: BrightRegion[] = [];
  const { order, ends } = cellsByLevel(light, levels);
  /** The patches that fit, by root; one that has not grown is the region that it was. */
  let fitting = new Map<number, { readonly patch: Patch; readonly region: BrightRegion }>();
  for (const [k, end] of ends.entries()) {
    const from = k > 0 ? ends[k - 1] : 0;
    for (let i = from; i < end; i++) patches.add(order[i]);
    const roots = new Set([...fitting.keys()].filter((root) => patches.rootOf(root) === root));
    for (let i = from, last = -1; i < end; i++) {
      const root = patches.rootOf(order[i]);
      if (root !== last && patches.countOf(root) >= fewestCells) roots.add(root);
      last = root;
    }
    const before = fitting;
    fitting = new Map();
    for (const root of roots) {
      const patch = patches.patchAt(root);
      if (!sizeFits(patch, light)) continue;
      const known = before.get(root);
      const region =
        known?.patch.count === patch.count ? known.region : regionOf(patches, root, light.width, pxPerCell);
      fitting.set(root, { patch, region });
    }
    const inReadingOrder = [...fitting.values()].sort((a, b) => a.patch.first - b.patch.first);
    regions.push(...inReadingOrder.map(({ region }) => region).filter(({ filled }) => filled >= leastFilled));
  }
  return regions;
}
