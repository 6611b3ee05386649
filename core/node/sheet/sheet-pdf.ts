import { quiet } from '../../sheet/drawing';
import { sheetWidthMm, type Fact, type ListItem, type SheetBlock, type SheetContent } from '../../sheet/sheet-content';
import { markDrawing } from '../../sheet/marks';
import { Paper, type PaperName } from './paper';
import { drawOnPaper, type SheetPictures } from './pdf-drawing';
import { lineMm, rowHeightMm, writeRow, type RowCell } from './pdf-rows';
import { writeTable } from './pdf-table';
import type { TextStyle } from './set-lines';

const body: TextStyle = { face: 'plain', sizePt: 9.5 };
const small: TextStyle = { face: 'plain', sizePt: 8.5 };
const labelMm = 46;
/** A line of heading, and a few rows of what it heads. */
const keptWithHeadMm = 32;

function writeText(paper: Paper, text: string, style: TextStyle, isQuiet = false): void {
  const lines = paper.lines(text, style, sheetWidthMm);
  const cell: RowCell = { xMm: 0, lines, sizePt: style.sizePt, ...(isQuiet ? { colour: quiet } : {}) };
  writeRow(paper, [cell], new Map());
}

function writeFact(paper: Paper, { label, value }: Fact): void {
  const { sizePt } = body;
  const cells: RowCell[] = [
    { xMm: 0, lines: paper.lines(label, body, labelMm - 3), sizePt, colour: quiet },
    { xMm: labelMm, lines: paper.lines(value, body, sheetWidthMm - labelMm), sizePt },
  ];
  writeRow(paper, cells, new Map());
  paper.yMm += 0.4;
}

const markMm = 6;

function writeListItem(paper: Paper, { mark, text, remedy }: ListItem): void {
  const width = sheetWidthMm - markMm;
  const { sizePt } = body;
  const main: RowCell[] = [
    { xMm: 0.6, lines: [], sizePt, drawing: markDrawing(mark) },
    { xMm: markMm, lines: paper.lines(text, body, width), sizePt },
  ];
  const more: RowCell[] = remedy === undefined ? [] : [{ xMm: markMm, lines: paper.lines(remedy, small, width), sizePt: small.sizePt, colour: quiet }]; // prettier-ignore
  paper.ensure(Math.min(60, rowHeightMm(main) + (more.length > 0 ? rowHeightMm(more) : 0)));
  writeRow(paper, main, new Map());
  if (more.length > 0) writeRow(paper, more, new Map());
  paper.yMm += 0.9;
}

function writeBlock(paper: Paper, block: SheetBlock, pictures: SheetPictures): void {
  if (block.kind === 'text') {
    const style: TextStyle =
      block.tone === 'strong' ? { face: 'strong', sizePt: 10 } : block.tone === 'quiet' ? small : body;
    // A heading stays with what it heads.
    if (block.tone === 'strong') paper.ensure(keptWithHeadMm);
    writeText(paper, block.text, style, block.tone === 'quiet');
  } else if (block.kind === 'facts') {
    for (const fact of block.facts) writeFact(paper, fact);
  } else if (block.kind === 'list') {
    for (const item of block.items) writeListItem(paper, item);
  } else if (block.kind === 'table') {
    writeTable(paper, block, pictures);
  } else {
    paper.ensure(heightOfDrawing(paper, block));
    if (block.caption !== undefined) writeText(paper, block.caption, small, true);
    drawOnPaper(paper, block.drawing, [0, paper.yMm + 1], pictures);
    paper.yMm += block.drawing.heightMm + 1;
  }
}

function heightOfDrawing(paper: Paper, { caption, drawing }: Extract<SheetBlock, { kind: 'drawing' }>): number {
  const lines = caption === undefined ? 0 : paper.lines(caption, small, sheetWidthMm).length;
  return lines * lineMm(small.sizePt) + 1 + drawing.heightMm;
}

/** What has to follow a heading on the same page, mm. */
function leastAfterHead(paper: Paper, block: SheetBlock): number {
  if (block.kind === 'drawing') return heightOfDrawing(paper, block);
  return block.kind === 'text' && block.tone === 'strong' ? keptWithHeadMm : 14;
}

function writeHead(paper: Paper, { title, lines, verdict }: SheetContent): void {
  writeText(paper, title, { face: 'strong', sizePt: 21 });
  for (const line of lines) writeText(paper, line, body);
  if (verdict !== null) {
    paper.yMm += 1;
    writeText(paper, verdict, { face: 'words', sizePt: 12.5 });
  }
  paper.rule(0, sheetWidthMm, paper.yMm + 1.5, 0.5);
  paper.yMm += 3;
}

export interface PdfOptions {
  readonly paper: PaperName;
  readonly program: string;
}

/**
 * The record sheet as PDF: real text in embedded fonts, charts as vectors, page numbers. Equal content and pictures give
 * equal bytes.
 *
 * @rule RS11, RS12
 */
export async function sheetPdf(
  content: SheetContent,
  pictures: SheetPictures,
  { paper: name, program }: PdfOptions,
): Promise<Buffer> {
  const { title, foot, savedAt } = content;
  const paper = new Paper({ paper: name, title, foot: `${foot}, ${program}`, program, savedAt });
  writeHead(paper, content);
  for (const section of content.sections) {
    paper.space(4.5);
    const [first] = section.blocks;
    paper.ensure(9 + (first ? leastAfterHead(paper, first) : 0));
    writeText(paper, section.title, { face: 'strong', sizePt: 13 });
    paper.yMm += 0.8;
    section.blocks.forEach((block, i) => {
      if (i > 0) paper.space(block.kind === 'text' && block.tone !== 'strong' ? 1.2 : 2.6);
      writeBlock(paper, block, pictures);
    });
  }
  const missing = [...paper.setter.letters.missing].sort();
  if (missing.length > 0) {
    paper.space(3);
    const text = `Printed by their numbers, since no font of this program has these letters: ${missing.join(' ')}`;
    writeText(paper, text, small, true);
  }
  return paper.finish();
}
