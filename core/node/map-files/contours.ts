import type { Plane } from '../../base/plane';
import { blendPixel, drawText, fillRectangle, textWidth, type Canvas } from './canvas';
import type { Rgb } from '../../display/colour-scale';
import type { ContourLevel } from '../../display/panels';

/** Where a plane of cells lies on a canvas: `pxPerCell` pixels a cell, from its left top corner. */
export interface Placement {
  readonly left: number;
  readonly top: number;
  readonly pxPerCell: number;
}

/** Value between the centres of four cells (bilinear); NaN where one of them is NaN or missing. */
export function valueBetweenCells(plane: Plane, x: number, y: number): number {
  const column = Math.min(Math.max(x - 0.5, 0), plane.width - 1);
  const row = Math.min(Math.max(y - 0.5, 0), plane.height - 1);
  const left = Math.min(Math.floor(column), Math.max(0, plane.width - 2));
  const top = Math.min(Math.floor(row), Math.max(0, plane.height - 2));
  const right = Math.min(left + 1, plane.width - 1);
  const bottom = Math.min(top + 1, plane.height - 1);
  const [s, t] = [column - left, row - top];
  const at = (c: number, r: number): number => plane.values[r * plane.width + c];
  return (
    (1 - t) * ((1 - s) * at(left, top) + s * at(right, top)) + t * ((1 - s) * at(left, bottom) + s * at(right, bottom))
  );
}

interface LinePixel {
  readonly column: number;
  readonly row: number;
}

/** Half of a line's width and the slope under which a field counts as flat, in units a pixel. */
const flat = 2e-4;

/**
 * Lines of equal value, smoothed at their edges: a pixel is covered by its distance to the line, |value - level| / slope.
 *
 * @returns for each level the pixels on its line, for labels
 * @source common practice
 */
function drawLines(
  canvas: Canvas,
  field: Plane,
  place: Placement,
  levels: readonly ContourLevel[],
  colour: Rgb,
): Map<ContourLevel, LinePixel[]> {
  const width = field.width * place.pxPerCell;
  const height = field.height * place.pxPerCell;
  const values = new Float64Array(width * height);
  for (let row = 0; row < height; row++) {
    for (let column = 0; column < width; column++) {
      const [x, y] = [(column + 0.5) / place.pxPerCell, (row + 0.5) / place.pxPerCell];
      values[row * width + column] = valueBetweenCells(field, x, y);
    }
  }
  const found = new Map<ContourLevel, LinePixel[]>(levels.map((level) => [level, []]));
  for (let row = 1; row < height - 1; row++) {
    for (let column = 1; column < width - 1; column++) {
      const i = row * width + column;
      const [dx, dy] = [(values[i + 1] - values[i - 1]) / 2, (values[i + width] - values[i - width]) / 2];
      const slope = Math.sqrt(dx * dx + dy * dy);
      if (!(slope > flat)) continue;
      for (const level of levels) {
        const cover = (level.bold ? 1.3 : 0.95) - Math.abs(values[i] - level.value) / slope;
        if (!(cover > 0)) continue;
        blendPixel(canvas, place.left + column, place.top + row, colour, 0.85 * Math.min(1, cover));
        if (cover > 0.75) found.get(level)?.push({ column, row });
      }
    }
  }
  return found;
}

/** The pixel of a line that lies farthest from the labels already set, well inside the picture; the upper edge first. */
function placeOfLabel(
  pixels: readonly LinePixel[],
  taken: readonly LinePixel[],
  limits: { width: number; height: number; margin: number },
): LinePixel | null {
  let best: LinePixel | null = null;
  let bestRating = 26;
  for (const pixel of pixels) {
    const inside =
      pixel.column > limits.margin &&
      pixel.column < limits.width - limits.margin &&
      pixel.row > 12 &&
      pixel.row < limits.height - 12;
    if (!inside) continue;
    const nearest = Math.min(
      160,
      ...taken.map((other) => Math.hypot(pixel.column - other.column, pixel.row - other.row)),
    );
    const rating = nearest - 0.1 * pixel.row;
    if (rating > bestRating) {
      best = pixel;
      bestRating = rating;
    }
  }
  return best;
}

/**
 * Lines of equal value with their labels, over a map that is already drawn.
 *
 * @param field  finite inside the outline, NaN outside; not altered
 */
export function drawContours(
  canvas: Canvas,
  field: Plane,
  place: Placement,
  levels: readonly ContourLevel[],
  colour: Rgb,
): void {
  const lines = drawLines(canvas, field, place, levels, colour);
  const taken: LinePixel[] = [];
  const limits = { width: field.width * place.pxPerCell, height: field.height * place.pxPerCell, margin: 24 };
  for (const [level, pixels] of lines) {
    const spot = placeOfLabel(pixels, taken, limits);
    if (spot === null) continue;
    taken.push(spot);
    const half = Math.ceil(textWidth(level.label, 8) / 2) + 3;
    const [x, y] = [place.left + spot.column, place.top + spot.row];
    fillRectangle(canvas, [x - half, y - 7, 2 * half, 14], [240, 240, 240], 0.82);
    drawText(canvas, level.label, x, y + 4, { sizePx: 8, colour: [10, 10, 10], align: 'centre', bold: level.bold });
  }
}
