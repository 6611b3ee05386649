import type { Rgb } from '../../display/colour-scale';
import { black, type Drawing, type DrawnItem, type DrawnPoint, type DrawnText, type Stroke } from '../../sheet/drawing';
import { ptPerMm, type Paper } from './paper';

/** Photos and maps by their names, as PNG or JPEG. */
export type SheetPictures = ReadonlyMap<string, Uint8Array>;

const alignShare = { left: 0, centre: 0.5, right: 1 } as const;

function writeText(
  paper: Paper,
  { at, text, sizePt, align = 'left', strong, colour = black }: DrawnText,
  from: DrawnPoint,
): void {
  const line = paper.setter.line(text, { face: strong ? 'strong' : 'plain', sizePt });
  const shift = (alignShare[align] * line.widthPt) / ptPerMm;
  paper.write(line, from[0] + at[0] - shift, from[1] + at[1], sizePt, colour);
}

function paint(paper: Paper, fill: Rgb | undefined, stroke: Stroke | undefined): void {
  const { pdf } = paper;
  if (fill) pdf.fillColor([...fill]);
  if (stroke) {
    pdf.lineWidth(stroke.widthMm * ptPerMm).strokeColor([...stroke.colour]);
    pdf.lineCap('round').lineJoin('round');
    if (stroke.dashMm) pdf.dash(stroke.dashMm[0] * ptPerMm, { space: stroke.dashMm[1] * ptPerMm });
    else pdf.undash();
  }
  if (fill && stroke) pdf.fillAndStroke();
  else if (fill) pdf.fill();
  else if (stroke) pdf.stroke();
}

function drawItem(paper: Paper, item: DrawnItem, from: DrawnPoint, pictures: SheetPictures): void {
  const { pdf } = paper;
  const x = (mm: number): number => (paper.leftMm + from[0] + mm) * ptPerMm;
  const y = (mm: number): number => (from[1] + mm) * ptPerMm;
  if (item.kind === 'text') return writeText(paper, item, from);
  if (item.kind === 'picture') {
    const bytes = pictures.get(item.picture);
    if (!bytes) throw new Error(`the picture ${item.picture} was not handed over`);
    const size = { width: item.widthMm * ptPerMm, height: item.heightMm * ptPerMm };
    pdf.image(Buffer.from(bytes), x(item.at[0]), y(item.at[1]), size);
    return;
  }
  if (item.kind === 'ellipse') {
    pdf.ellipse(x(item.centre[0]), y(item.centre[1]), item.radii[0] * ptPerMm, item.radii[1] * ptPerMm);
    return paint(paper, item.fill, item.stroke);
  }
  item.points.forEach(([px, py], i) => (i === 0 ? pdf.moveTo(x(px), y(py)) : pdf.lineTo(x(px), y(py))));
  if (item.kind === 'line') return paint(paper, undefined, item.stroke);
  pdf.closePath();
  paint(paper, item.fill, item.stroke);
}

/** A drawing as vectors and letters. @param from mm: x of the sheet, y of the page @rule RS3 */
export function drawOnPaper(paper: Paper, drawing: Drawing, from: DrawnPoint, pictures: SheetPictures): void {
  for (const item of drawing.items) drawItem(paper, item, from, pictures);
}
