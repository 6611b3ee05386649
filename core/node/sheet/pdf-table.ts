import { faint, quiet } from '../../sheet/drawing';
import { sheetWidthMm, type SheetBlock, type TableCell, type TableColumn } from '../../sheet/sheet-content';
import { columnWidths, type ColumnNeed } from './column-widths';
import { ptPerMm, type Paper } from './paper';
import type { SheetPictures } from './pdf-drawing';
import { lineMm, writeRow, type RowCell } from './pdf-rows';
import type { Face } from './sheet-fonts';
import type { TextStyle } from './set-lines';

type TableBlock = Extract<SheetBlock, { kind: 'table' }>;

const gapMm = 3.5;
const headStyle: TextStyle = { face: 'plain', sizePt: 8 };

function styleOf({ tone }: TableColumn): TextStyle {
  const faceOf: Readonly<Record<string, Face>> = { words: 'words', strong: 'strong' };
  return { face: tone === undefined ? 'plain' : faceOf[tone], sizePt: 9 };
}

/** `76 ± 6` as what stands before and after the middle of the sign. */
function halves(text: string): readonly [string, string] {
  const at = text.indexOf('±');
  return at < 0 ? [text, ''] : [text.slice(0, at).trimEnd(), text.slice(at)];
}

interface LaidColumn {
  readonly column: TableColumn;
  readonly xMm: number;
  readonly widthMm: number;
  /** Where the plus-minus signs begin, from the column's left. */
  readonly spineMm: number;
}

function layOutColumns(paper: Paper, { columns, rows }: TableBlock): LaidColumn[] {
  const widthMm = (text: string, style: TextStyle): number => paper.setter.widthOf(text, style) / ptPerMm;
  const spines = columns.map((column, c) => {
    if (column.align !== 'figure') return 0;
    const texts = rows.map((row) => row[c]).filter((cell): cell is string => typeof cell === 'string');
    return Math.max(0, ...texts.map((text) => widthMm(halves(text)[0], styleOf(column)))) + 1;
  });
  const needs = columns.map((column, c): ColumnNeed => {
    const style = styleOf(column);
    const cellNeed = (cell: TableCell): ColumnNeed => {
      if (typeof cell !== 'string') return { least: cell.widthMm, most: cell.widthMm };
      if (column.align === 'figure') {
        const after = widthMm(halves(cell)[1], style);
        return { least: spines[c] + after, most: spines[c] + after };
      }
      const words = cell.split(/\s+/).map((word) => widthMm(word, style));
      const lines = cell.split('\n').map((line) => widthMm(line, style));
      return { least: Math.max(...words), most: Math.max(...lines) };
    };
    const head = column.title.split(' ').map((word) => widthMm(word, headStyle));
    const title = widthMm(column.title, headStyle);
    const needed = [...rows.map((row) => cellNeed(row[c])), { least: Math.max(...head), most: title }];
    const slack = 0.1;
    return {
      least: Math.max(...needed.map(({ least }) => least)) + slack,
      most: Math.max(...needed.map(({ most }) => most)) + slack,
    };
  });
  const widths = columnWidths(needs, sheetWidthMm - gapMm * (columns.length - 1));
  let xMm = 0;
  return columns.map((column, c) => {
    const laid = { column, xMm, widthMm: widths[c], spineMm: spines[c] };
    xMm += widths[c] + gapMm;
    return laid;
  });
}

function cellsOf(paper: Paper, cell: TableCell, { column, xMm, widthMm, spineMm }: LaidColumn): RowCell[] {
  const style = styleOf(column);
  const { sizePt } = style;
  if (typeof cell !== 'string') return [{ xMm, lines: [], sizePt, drawing: cell }];
  if (column.align !== 'figure') return [{ xMm, lines: paper.lines(cell, style, widthMm), sizePt }];
  const [value, plusMinus] = halves(cell);
  const first = paper.setter.line(value, style);
  const second = paper.setter.line(plusMinus, { face: 'plain', sizePt });
  return [
    { xMm: xMm + spineMm - 1 - first.widthPt / ptPerMm, lines: [first], sizePt },
    ...(plusMinus === '' ? [] : [{ xMm: xMm + spineMm, lines: [second], sizePt }]),
  ];
}

/** A table; its heads stand again on every page that it goes on to. @rule RS12 */
export function writeTable(paper: Paper, block: TableBlock, pictures: SheetPictures): void {
  const laid = layOutColumns(paper, block);
  const heads = laid.map(({ column, xMm, widthMm }): RowCell => {
    return { xMm, lines: paper.lines(column.title, headStyle, widthMm), sizePt: headStyle.sizePt, colour: quiet };
  });
  const writeHead = (): void => {
    if (block.columns.every(({ title }) => title === '')) return;
    writeRow(paper, heads, pictures);
    paper.rule(0, sheetWidthMm, paper.yMm + 0.7, 0.25);
    paper.yMm += 1.4;
  };
  paper.ensure(4 * lineMm(9));
  writeHead();
  for (const row of block.rows) {
    const cells = row.flatMap((cell, c) => cellsOf(paper, cell, laid[c]));
    writeRow(paper, cells, pictures, writeHead);
    paper.rule(0, sheetWidthMm, paper.yMm + 0.5, 0.1, faint);
    paper.yMm += 1;
  }
}
