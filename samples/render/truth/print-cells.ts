import { InkPlane, type Stroke } from '../print/strokes';
import type { PrintDrawing } from '../print/window-print';
import { cellsPerMm, type GlowCells } from './glow-cells';

/** Lit figures are narrowed by this much on each side: the rest is their blurred edge. */
const litEdgeMm = 0.2;
/** A cell of lit figures counts from this share on: figures are narrow. */
const leastLitShare = 0.25;
/** Print is widened by this much on each side before the rest counts as glow. */
const growthMm = 0.4;
/** Samples along one side of a cell. */
const samplesPerCell = 5;

/** Share of each cell that lies under strokes, each widened by so much on each side. */
function shareUnder(strokes: readonly Stroke[], widenedMm: number, cells: GlowCells): Float64Array {
  const ink = new InkPlane(cells.widthMm, cells.heightMm, cellsPerMm * samplesPerCell);
  for (const stroke of strokes) {
    const width = stroke.width + 2 * widenedMm;
    if (width > 0) ink.draw({ ...stroke, width });
  }
  const covered = new Float64Array(cells.columns * cells.rows);
  ink.values.forEach((share, at) => {
    const column = Math.floor((at % ink.width) / samplesPerCell);
    const row = Math.floor(at / ink.width / samplesPerCell);
    covered[row * cells.columns + column] += share / samplesPerCell ** 2;
  });
  return covered;
}

/**
 * The same light, but cells of which more than half is print (widened) are neither glow nor light to smooth with. Of a black dial
 * only the cells of its lit figures (narrowed) count.
 */
export function withoutPrint(cells: GlowCells, drawing: PrintDrawing): GlowCells {
  const dark = shareUnder([...drawing.dark, ...drawing.red], growthMm, cells);
  const lit = drawing.lit ? shareUnder(drawing.lit, -litEdgeMm, cells) : null;
  const isFree = (at: number): boolean => dark[at] <= 0.5 && (lit === null || lit[at] >= leastLitShare);
  const free = (mask: Uint8Array) => mask.map((value, at) => (isFree(at) ? value : 0));
  return { ...cells, inOutline: free(cells.inOutline), isGlow: free(cells.isGlow) };
}
