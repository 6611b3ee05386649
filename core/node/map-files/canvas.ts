import type { Rgb } from '../../display/colour-scale';
import { lettersOf, type PenPoint } from './stroke-letters';

/** A picture under way: 8-bit sRGB, row by row. */
export interface Canvas {
  readonly width: number;
  readonly height: number;
  readonly rgb: Uint8Array;
}

/** A picture filled with one colour. */
export function createCanvas(width: number, height: number, fill: Rgb): Canvas {
  const rgb = new Uint8Array(width * height * 3);
  for (let i = 0; i < rgb.length; i++) rgb[i] = fill[i % 3];
  return { width, height, rgb };
}

/** Lays a colour over one pixel; outside the picture nothing happens. */
export function blendPixel(canvas: Canvas, column: number, row: number, colour: Rgb, cover: number): void {
  if (column < 0 || row < 0 || column >= canvas.width || row >= canvas.height || !(cover > 0)) return;
  const at = 3 * (row * canvas.width + column);
  const share = Math.min(1, cover);
  for (let k = 0; k < 3; k++) {
    canvas.rgb[at + k] = Math.round(canvas.rgb[at + k] + share * (colour[k] - canvas.rgb[at + k]));
  }
}

/** A filled rectangle of whole pixels. */
export function fillRectangle(
  canvas: Canvas,
  [left, top, width, height]: readonly [number, number, number, number],
  colour: Rgb,
  cover = 1,
): void {
  for (let row = top; row < top + height; row++) {
    for (let column = left; column < left + width; column++) blendPixel(canvas, column, row, colour, cover);
  }
}

function distanceToSegment(x: number, y: number, [ax, ay]: PenPoint, [bx, by]: PenPoint): number {
  const [dx, dy] = [bx - ax, by - ay];
  const squared = dx * dx + dy * dy;
  const along = squared === 0 ? 0 : Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / squared));
  const [offX, offY] = [x - ax - along * dx, y - ay - along * dy];
  return Math.sqrt(offX * offX + offY * offY);
}

/** Whole pixels that a round pen may touch between two points: left, right, top, bottom; right and bottom are beyond. */
function reached(points: readonly PenPoint[], penWidth: number): readonly [number, number, number, number] {
  const reach = penWidth / 2 + 1;
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
  return [
    Math.floor(Math.min(...xs) - reach),
    Math.ceil(Math.max(...xs) + reach),
    Math.floor(Math.min(...ys) - reach),
    Math.ceil(Math.max(...ys) + reach),
  ];
}

/** Strokes of one round pen, in pixels; where strokes overlap the colour is laid once. */
export function drawStrokes(
  canvas: Canvas,
  strokes: readonly (readonly PenPoint[])[],
  penWidth: number,
  colour: Rgb,
): void {
  const points = strokes.flat();
  if (points.length === 0) return;
  const [left, right, top, bottom] = reached(points, penWidth);
  const distances = new Float64Array((right - left) * (bottom - top)).fill(Infinity);
  for (const stroke of strokes) {
    for (let i = 0; i + 1 < stroke.length; i++) {
      // Only pixels near a segment can take its colour.
      const [nearLeft, nearRight, nearTop, nearBottom] = reached([stroke[i], stroke[i + 1]], penWidth);
      for (let row = nearTop; row < nearBottom; row++) {
        for (let column = nearLeft; column < nearRight; column++) {
          const at = (row - top) * (right - left) + column - left;
          const distance = distanceToSegment(column + 0.5, row + 0.5, stroke[i], stroke[i + 1]);
          if (distance < distances[at]) distances[at] = distance;
        }
      }
    }
  }
  distances.forEach((distance, at) => {
    const row = Math.floor(at / (right - left));
    blendPixel(canvas, left + at - row * (right - left), top + row, colour, penWidth / 2 + 0.5 - distance);
  });
}

/** Blank between letters, in letter units. */
const letterGap = 2.1;

/** Width of a text in pixels. @param sizePx height of a capital */
export function textWidth(text: string, sizePx: number): number {
  const units = lettersOf(text).reduce((sum, letter) => sum + (letter.width > 0 ? letter.width + letterGap : 0), 0);
  return (Math.max(0, units - letterGap) * sizePx) / 10;
}

export interface TextStyle {
  /** Height of a capital, pixels. */
  readonly sizePx: number;
  readonly colour: Rgb;
  readonly align?: 'left' | 'centre' | 'right';
  readonly bold?: boolean;
}

/** Writes a line of text; `x` is where it starts, centres or ends, `baseline` the row under the letters. */
export function drawText(canvas: Canvas, text: string, x: number, baseline: number, style: TextStyle): void {
  const { sizePx, colour, align = 'left', bold = false } = style;
  const shift = { left: 0, centre: 0.5, right: 1 }[align] * textWidth(text, sizePx);
  const scale = sizePx / 10;
  const pen = Math.max(1.05, sizePx * (bold ? 0.17 : 0.115));
  let from = Math.round(x - shift);
  for (const letter of lettersOf(text)) {
    const strokes = letter.strokes.map((stroke) =>
      stroke.map(([px, py]): PenPoint => [from + pen / 2 + px * scale, baseline - pen / 2 - py * scale]),
    );
    drawStrokes(canvas, strokes, pen, colour);
    if (letter.width > 0) from += (letter.width + letterGap) * scale;
  }
}

/** Cuts a text to a width in pixels, marking the cut. */
export function fitText(text: string, sizePx: number, widthPx: number): string {
  if (textWidth(text, sizePx) <= widthPx) return text;
  let kept = [...text];
  while (kept.length > 0 && textWidth(`${kept.join('')}…`, sizePx) > widthPx) kept = kept.slice(0, -1);
  return `${kept.join('')}…`;
}
