import { InkPlane } from '../print/strokes';
import type { PrintDrawing } from '../print/window-print';
import { cellsPerMm, type GlowCells } from './glow-cells';

/** Print is widened by this much on each side before the rest counts as glow. */
const growthMm = 0.4;
/** Samples along one side of a cell. */
const samplesPerCell = 5;

/** The same light, but cells of which half or more is print (widened) are neither glow nor light to smooth with. */
export function withoutPrint(cells: GlowCells, drawing: PrintDrawing): GlowCells {
  const ink = new InkPlane(cells.widthMm, cells.heightMm, cellsPerMm * samplesPerCell);
  for (const stroke of [...drawing.dark, ...drawing.red]) ink.draw({ ...stroke, width: stroke.width + 2 * growthMm });
  const covered = new Float64Array(cells.columns * cells.rows);
  ink.values.forEach((share, at) => {
    const column = Math.floor((at % ink.width) / samplesPerCell);
    const row = Math.floor(at / ink.width / samplesPerCell);
    covered[row * cells.columns + column] += share / samplesPerCell ** 2;
  });
  const free = (mask: Uint8Array) => mask.map((value, at) => (covered[at] > 0.5 ? 0 : value));
  return { ...cells, inOutline: free(cells.inOutline), isGlow: free(cells.isGlow) };
}
