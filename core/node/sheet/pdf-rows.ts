import type { Rgb } from '../../display/colour-scale';
import type { Drawing } from '../../sheet/drawing';
import { ptPerMm, type Paper } from './paper';
import { drawOnPaper, type SheetPictures } from './pdf-drawing';
import type { SetLine } from './set-lines';

/** Lines that stand beside others in one row. */
export interface RowCell {
  readonly xMm: number;
  readonly lines: readonly SetLine[];
  readonly sizePt: number;
  readonly colour?: Rgb;
  /** Instead of lines. */
  readonly drawing?: Drawing;
}

export const lineMm = (sizePt: number): number => (1.32 * sizePt) / ptPerMm;

const lineCount = (cells: readonly RowCell[]): number => Math.max(1, ...cells.map(({ lines }) => lines.length));

export function rowHeightMm(cells: readonly RowCell[]): number {
  const tallest = Math.max(...cells.map(({ sizePt }) => lineMm(sizePt)));
  return Math.max(tallest * lineCount(cells), ...cells.map(({ drawing }) => drawing?.heightMm ?? 0));
}

/** Rows up to this high are kept on one page. */
const keptTogetherMm = 60;

/**
 * Writes a row; one that is too long for the rest of the page goes on, line by line, on the next.
 *
 * @param onNewPage  writes what has to stand at the head of a page
 */
export function writeRow(
  paper: Paper,
  cells: readonly RowCell[],
  pictures: SheetPictures,
  onNewPage?: () => void,
): void {
  const height = rowHeightMm(cells);
  const step = Math.max(...cells.map(({ sizePt }) => lineMm(sizePt)));
  const goOn = (mm: number): void => {
    if (paper.ensure(mm)) onNewPage?.();
  };
  goOn(height <= keptTogetherMm ? height : 3 * step);
  for (const { drawing, xMm } of cells) {
    if (drawing) drawOnPaper(paper, drawing, [xMm, paper.yMm + (step - drawing.heightMm) / 2], pictures);
  }
  for (let i = 0; i < lineCount(cells); i++) {
    goOn(step);
    for (const { lines, xMm, sizePt, colour } of cells) {
      // All base lines of a row lie on one line, whatever the sizes.
      if (i < lines.length) paper.write(lines[i], xMm, paper.yMm + 0.76 * step, sizePt, colour);
    }
    paper.yMm += step;
  }
}
