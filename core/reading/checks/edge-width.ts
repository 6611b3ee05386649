import type { Mask, Plane } from '../../base/plane';
import { percentilesOf } from '../../base/stats';
import { strokeCorrection } from './stroke-correction';

/** How wide the sharpest edges of the print are, in mm; null where too few edges run across that direction. */
export interface EdgeWidths {
  /** Across the window: edges of upright strokes. */
  readonly alongXMm: number | null;
  /** Down the window: edges of level strokes. */
  readonly alongYMm: number | null;
}

/** A print must take this share of the light beside it for its edge to be measured. */
const leastDepth = 0.2;
/** The light beside a mark is looked for this far from the mark's darkest place. */
const reachMm = 4;
/** Fewer edges are not enough to find the sharpest among them. */
const leastEdges = 24;
/** Strokes that lie square across the line show their own width; slanting and crowded ones look wider. */
const sharpestPercent = 25;

/** Where a falling or rising flank passes a level, in cells from its darkest cell; linear between the cells. */
function passes(line: Float64Array, darkest: number, step: -1 | 1, brightest: number, level: number): number {
  for (let i = darkest; i !== brightest; i += step) {
    const here = line[i];
    const next = line[i + step];
    if (here <= level && next > level) return Math.abs(i - darkest) + (level - here) / (next - here);
  }
  return NaN;
}

/** The brightest cell on one side, up to where the light falls again by a tenth of what it rose; the line's end is no plateau. */
function plateau(line: Float64Array, darkest: number, step: -1 | 1, reach: number): number {
  let brightest = darkest;
  for (let k = 1, i = darkest + step; k <= reach; k++, i += step) {
    if (i < 0 || i >= line.length || Number.isNaN(line[i])) return k > reach / 2 ? brightest : -1;
    if (line[i] > line[brightest]) brightest = i;
    else if (line[i] < line[brightest] - 0.1 * (line[brightest] - line[darkest])) break;
  }
  return brightest;
}

interface Flank {
  readonly halfCells: number;
  readonly widthCells: number;
}

function flankOf(line: Float64Array, darkest: number, step: -1 | 1, reach: number): Flank | null {
  const brightest = plateau(line, darkest, step, reach);
  if (brightest < 0) return null;
  const rise = line[brightest] - line[darkest];
  if (!(rise > leastDepth * line[brightest])) return null;
  const at = (share: number): number => passes(line, darkest, step, brightest, line[darkest] + share * rise);
  const widthCells = at(0.9) - at(0.1);
  return Number.isFinite(widthCells) ? { halfCells: at(0.5), widthCells } : null;
}

/** Widths of both flanks of every run of print on a line, cells. */
function addEdges(line: Float64Array, isPrint: Uint8Array, reach: number, widths: number[]): void {
  for (let i = 0; i < line.length; i++) {
    if (!isPrint[i]) continue;
    let darkest = i;
    for (; i < line.length && isPrint[i]; i++) if (line[i] < line[darkest]) darkest = i;
    const left = flankOf(line, darkest, -1, reach);
    const right = flankOf(line, darkest, 1, reach);
    if (!left || !right) continue;
    const strokeCells = left.halfCells + right.halfCells;
    for (const { widthCells } of [left, right]) widths.push(widthCells * strokeCorrection(strokeCells / widthCells));
  }
}

function sharpestMm(widths: readonly number[], pxPerMm: number): number | null {
  return widths.length < leastEdges ? null : percentilesOf(widths, [sharpestPercent])[0] / pxPerMm;
}

/**
 * The 10-to-90 % width of the print's sharpest edges, in both directions, so that a shake along one of them is seen.
 *
 * On every row and column, each run of print has a darkest cell and on both sides the brightest place before the light falls
 * again; the width lies between 10 and 90 % of that rise, linear between cells. A stroke thinner than the blur never
 * reaches its full darkness and looks sharper than it is: `strokeCorrection` takes that out. Of all edges the lower quartile
 * counts: the sharpest tenth was a third too low on rendered prints with known blur, the quartile within a fifth.
 * A Gaussian blur of deviation s gives 2.563 s. A shake as long as the strokes are wide reads up to half too wide, as the
 * correction takes its slanting flanks for those of a Gaussian.
 *
 * @param relLuminance linear light of the straightened window, NaN = not measured; not altered
 * @param print        print before it was widened, of the same shape; not altered
 * @param pxPerMm      cells a mm; the grid's own cells add about 0.8 of a cell to sharp edges
 * @returns mm, 0 or more
 * @source 10-to-90 % edge width: common practice; quartile and least contrast: our own choice, tried on rendered photos
 * @rule CK1
 */
export function edgeWidths(relLuminance: Plane, print: Mask, pxPerMm: number): EdgeWidths {
  const { width, height, values } = relLuminance;
  const reach = Math.round(reachMm * pxPerMm);
  const along = (lines: number, length: number, at: (line: number, i: number) => number): number | null => {
    const widths: number[] = [];
    const line = new Float64Array(length);
    const isPrint = new Uint8Array(length);
    for (let l = 0; l < lines; l++) {
      for (let i = 0; i < length; i++) {
        line[i] = values[at(l, i)];
        isPrint[i] = print.values[at(l, i)];
      }
      addEdges(line, isPrint, reach, widths);
    }
    return sharpestMm(widths, pxPerMm);
  };
  return {
    alongXMm: along(height, width, (row, column) => row * width + column),
    alongYMm: along(width, height, (column, row) => row * width + column),
  };
}
