import {
  blendPixel,
  createCanvas,
  drawStrokes,
  drawText,
  fillRectangle,
  fitText,
  textWidth,
  type Canvas,
} from './canvas';
import type { Rgb } from '../../display/colour-scale';
import type { Panel, PanelScale } from '../../display/panels';
import { drawContours, type Placement } from './contours';

export interface PictureText {
  readonly title: string;
  /** The leading figure, at the right of the title. */
  readonly figure: string;
  readonly note: string;
}

const surround: Rgb = [32, 32, 32];
const ink: Rgb = [240, 240, 240];
const quiet: Rgb = [190, 190, 190];
const hatchLight: Rgb = [235, 235, 235];
const hatchDark: Rgb = [20, 20, 20];

const gutter = { left: 58, right: 96, top: 58, bottom: 30 };
const rulerHeight = 34;
const panelHead = 26;
const panelGap = 14;
const leastScaleHeight = 132;
const leastWidth = 560;
/** A picture is about this wide: whole pixels a cell, 1 to 7. */
const aimedWidth = 1104;

export function pxPerCellFor(widthCells: number): number {
  return Math.min(7, Math.max(1, Math.floor(aimedWidth / widthCells)));
}

function drawCells(canvas: Canvas, panel: Panel, place: Placement): void {
  const { pxPerCell, left, top } = place;
  for (let i = 0; i < panel.width * panel.height; i++) {
    const cell = panel.cellAt(i);
    if (cell === null) continue;
    const [x, y] = [left + (i % panel.width) * pxPerCell, top + Math.floor(i / panel.width) * pxPerCell];
    fillRectangle(canvas, [x, y, pxPerCell, pxPerCell], cell.colour);
    if (!cell.hatched) continue;
    for (let row = y; row < y + pxPerCell; row++) {
      for (let column = x; column < x + pxPerCell; column++) {
        const phase = (column + row) % 6;
        if (phase === 0) blendPixel(canvas, column, row, hatchLight, 0.42);
        if (phase === 3) blendPixel(canvas, column, row, hatchDark, 0.42);
      }
    }
  }
}

/** Distance of labelled ticks so that labels stand at least `leastPx` apart. */
function labelStepMm(pxPerMm: number, leastPx: number): number {
  return [1, 2, 5, 10, 20, 50, 100, 200].find((step) => step * pxPerMm >= leastPx) ?? 500;
}

function drawRulers(canvas: Canvas, panel: Panel, place: Placement): void {
  const pxPerMm = place.pxPerCell * panel.cellsPerMm;
  const [width, height] = [panel.width * place.pxPerCell, panel.height * place.pxPerCell];
  const step = labelStepMm(pxPerMm, 44);
  const fine = pxPerMm >= 4 ? 1 : pxPerMm >= 1 ? 5 : 50;
  const lengthOf = (mm: number): number => (mm % step === 0 ? 9 : mm % 5 === 0 ? 6 : 4);
  for (let mm = 0; mm * pxPerMm <= width; mm += fine) {
    const x = place.left + Math.round(mm * pxPerMm);
    fillRectangle(canvas, [x, place.top + height + 3, 1, lengthOf(mm)], quiet);
    if (mm % step === 0) {
      const label = mm === 0 ? '0 mm' : String(mm);
      const shift = mm === 0 ? (textWidth('0 mm', 8) - textWidth('0', 8)) / 2 : 0;
      drawText(canvas, label, x + shift, place.top + height + 26, { sizePx: 8, colour: quiet, align: 'centre' });
    }
  }
  for (let mm = 0; mm * pxPerMm <= height; mm += fine) {
    const y = place.top + Math.round(mm * pxPerMm);
    fillRectangle(canvas, [place.left - 3 - lengthOf(mm), y, lengthOf(mm), 1], quiet);
    if (mm % step === 0) {
      drawText(canvas, String(mm), place.left - 17, y + 4, { sizePx: 8, colour: quiet, align: 'right' });
    }
  }
}

function drawScale(canvas: Canvas, scale: PanelScale, left: number, top: number, height: number): void {
  const barWidth = 14;
  for (let row = 0; row < height; row++) {
    fillRectangle(canvas, [left, top + row, barWidth, 1], scale.colourAt(1 - (row + 0.5) / height));
  }
  for (const tick of scale.ticks) {
    const y = top + Math.min(height - 1, Math.round((1 - tick.share) * (height - 1)));
    fillRectangle(canvas, [left + barWidth, y, 4, 1], quiet);
    const baseline = Math.min(top + height, Math.max(top + 8, y + 4));
    drawText(canvas, tick.label, left + barWidth + 8, baseline, { sizePx: 8, colour: ink });
  }
}

function drawMarks(canvas: Canvas, panel: Panel, place: Placement): void {
  const pxPerMm = place.pxPerCell * panel.cellsPerMm;
  for (const mark of panel.marks ?? []) {
    const x = Math.round(place.left + mark.xMm * pxPerMm);
    const y = Math.round(place.top + mark.yMm * pxPerMm);
    if (mark.kind === 'hot') {
      drawStrokes(canvas, [[[x, y], [x, y]]], 21, ink); // prettier-ignore
      drawStrokes(canvas, [[[x, y], [x, y]]], 18, hatchDark); // prettier-ignore
    } else {
      fillRectangle(canvas, [x - 9, y - 9, 18, 18], hatchDark);
      fillRectangle(canvas, [x - 8, y - 8, 16, 16], ink);
    }
    const colour = mark.kind === 'hot' ? ink : hatchDark;
    drawText(canvas, mark.label, x, y + 5, { sizePx: 9, colour, align: 'centre', bold: true });
  }
}

/**
 * A picture of one or more maps of a window under each other, on one ruler in mm, each with its printed scale.
 *
 * @returns 8-bit sRGB; the same bytes on every machine: letters are our own strokes, no font is asked for
 * @rule MP4
 */
export function drawMapPicture(panels: readonly Panel[], text: PictureText): Canvas {
  const pxPerCell = pxPerCellFor(panels[0].width);
  const mapWidth = panels[0].width * pxPerCell;
  const heights = panels.map((panel) => Math.max(panel.height * pxPerCell, panel.scale ? leastScaleHeight : 0));
  const blocks = heights.map((height) => panelHead + height + rulerHeight + panelGap);
  const width = Math.max(leastWidth, gutter.left + mapWidth + gutter.right);
  const height = gutter.top + blocks.reduce((sum, block) => sum + block, 0) + gutter.bottom;
  const canvas = createCanvas(width, height, surround);
  const figure = fitText(text.figure, 10, 0.58 * width);
  const titleRoom = width - gutter.left - 24 - textWidth(figure, 10) - 32;
  drawText(canvas, fitText(text.title, 14, titleRoom), gutter.left, 38, { sizePx: 14, colour: ink });
  drawText(canvas, figure, width - 24, 38, { sizePx: 10, colour: ink, align: 'right' });
  let top = gutter.top;
  panels.forEach((panel, i) => {
    const place = { left: gutter.left, top: top + panelHead, pxPerCell };
    drawText(canvas, panel.title, gutter.left, top + 14, { sizePx: 9, colour: ink, bold: true });
    drawCells(canvas, panel, place);
    if (panel.contours) {
      drawContours(canvas, panel.contours.field, place, panel.contours.levels, hatchDark);
    }
    drawMarks(canvas, panel, place);
    drawRulers(canvas, panel, place);
    if (panel.scale) drawScale(canvas, panel.scale, gutter.left + mapWidth + 22, place.top, heights[i]);
    top += blocks[i];
  });
  const note = fitText(text.note, 8, width - gutter.left - 24);
  drawText(canvas, note, gutter.left, height - 18, { sizePx: 8, colour: quiet });
  return canvas;
}
