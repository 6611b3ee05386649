import type { Panel } from '../../core/display/panels';
import { panelPixels } from './panel-pixels';
import type { Viewport } from './viewport';

/** A panel's cells, ready to be drawn at any enlargement. */
export interface PanelPicture {
  readonly colours: HTMLCanvasElement;
  readonly hatched: HTMLCanvasElement;
  readonly cellsPerMm: number;
}

function canvasOf(picture: ImageData): HTMLCanvasElement {
  const canvas = document.createElement('canvas');
  canvas.width = picture.width;
  canvas.height = picture.height;
  canvas.getContext('2d')?.putImageData(picture, 0, 0);
  return canvas;
}

export function panelPicture(panel: Panel): PanelPicture {
  const { colours, hatched } = panelPixels(panel);
  return { colours: canvasOf(colours), hatched: canvasOf(hatched), cellsPerMm: panel.cellsPerMm };
}

/** A tile of slanted lines, the sign for "no value here" everywhere. */
function hatching(context: CanvasRenderingContext2D, scale: number): CanvasPattern | null {
  const side = Math.round(6 * scale);
  const tile = document.createElement('canvas');
  tile.width = side;
  tile.height = side;
  const pen = tile.getContext('2d');
  if (!pen) return null;
  pen.lineWidth = scale;
  for (const [colour, shift] of [
    ['rgb(235 235 235 / 38%)', 0],
    ['rgb(20 20 20 / 38%)', scale],
  ] as const) {
    pen.strokeStyle = colour;
    pen.beginPath();
    for (const offset of [-side, 0, side]) {
      pen.moveTo(offset + shift, side);
      pen.lineTo(offset + side + shift, 0);
    }
    pen.stroke();
  }
  return context.createPattern(tile, 'repeat');
}

/** Draws the part of a panel that the viewport shows over the whole canvas, which is as large as its place on screen. */
export function drawPanel(canvas: HTMLCanvasElement, picture: PanelPicture, view: Viewport): void {
  const scale = window.devicePixelRatio || 1;
  const width = Math.max(1, Math.round(canvas.clientWidth * scale));
  const height = Math.max(1, Math.round(canvas.clientHeight * scale));
  canvas.width = width;
  canvas.height = height;
  const context = canvas.getContext('2d');
  if (!context) return;
  const source = [view.leftMm, view.topMm, view.widthMm, view.heightMm].map((mm) => mm * picture.cellsPerMm) as [
    number,
    number,
    number,
    number,
  ];
  context.imageSmoothingQuality = 'high';
  context.drawImage(picture.colours, ...source, 0, 0, width, height);
  const overlay = document.createElement('canvas');
  overlay.width = width;
  overlay.height = height;
  const pen = overlay.getContext('2d');
  if (!pen) return;
  pen.imageSmoothingEnabled = false;
  pen.drawImage(picture.hatched, ...source, 0, 0, width, height);
  pen.globalCompositeOperation = 'source-in';
  pen.fillStyle = hatching(pen, scale) ?? '#888';
  pen.fillRect(0, 0, width, height);
  context.drawImage(overlay, 0, 0);
}
