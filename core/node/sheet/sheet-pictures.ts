import '../decode/wasm-only';
import type { MappedWindow, MeasuredWindow } from '../../contract/measure';
import { luminancePanel, unevennessPanel, windowPanel, type Panel } from '../../display/panels';
import { layOutPictures } from '../../sheet/picture-layout';
import { pictureName, sidesOf, sizeOf, type ShownWindow } from '../../sheet/shown-window';
import type { Rgb } from '../../display/colour-scale';
import { blendPixel, createCanvas, fillRectangle, type Canvas } from '../map-files/canvas';
import { drawContours } from '../map-files/contours';
import { pngOf } from '../map-files/write-maps';
import type { SheetPictures } from './pdf-drawing';
import { loadSharp } from '../decode/load-sharp';

const paperWhite: Rgb = [255, 255, 255];
const dark: Rgb = [20, 20, 20];
const light: Rgb = [235, 235, 235];

/** Pixels a mm of paper that a map is drawn with: contour labels of 8 pixels are then read. */
const mapPxPerPaperMm = 7.5;

/** A map without letters but those of its contour lines; ruler and scale are drawn beside it as vectors. */
function mapCanvas(panel: Panel, pxPerCell: number): Canvas {
  const canvas = createCanvas(panel.width * pxPerCell, panel.height * pxPerCell, paperWhite);
  for (let i = 0; i < panel.width * panel.height; i++) {
    const cell = panel.cellAt(i);
    if (cell === null) continue;
    const [x, y] = [(i % panel.width) * pxPerCell, Math.floor(i / panel.width) * pxPerCell];
    fillRectangle(canvas, [x, y, pxPerCell, pxPerCell], cell.colour);
    if (!cell.hatched) continue;
    for (let row = y; row < y + pxPerCell; row++) {
      for (let column = x; column < x + pxPerCell; column++) {
        if ((column + row) % 6 === 0) blendPixel(canvas, column, row, light, 0.42);
        if ((column + row) % 6 === 3) blendPixel(canvas, column, row, dark, 0.42);
      }
    }
  }
  if (panel.contours) {
    const place = { left: 0, top: 0, pxPerCell };
    drawContours(canvas, panel.contours.field, place, panel.contours.levels, dark);
  }
  return canvas;
}

function photoCanvas(panel: Panel): Canvas {
  const canvas = createCanvas(panel.width, panel.height, paperWhite);
  for (let i = 0; i < panel.width * panel.height; i++) {
    const cell = panel.cellAt(i);
    if (cell) canvas.rgb.set(cell.colour, 3 * i);
  }
  return canvas;
}

/** A photo is packed as JPEG: as PNG its noise would make the sheet ten times as large. */
async function jpegOf({ width, height, rgb }: Canvas): Promise<Buffer> {
  const sharp = loadSharp();
  const pixels = sharp(rgb, { raw: { width, height, channels: 3 } });
  return pixels.jpeg({ quality: 90, chromaSubsampling: '4:4:4' }).toBuffer();
}

const isMapped = (one: MeasuredWindow): one is MeasuredWindow & MappedWindow => one.maps !== null;

/**
 * Photos and maps of the windows on a sheet, by the names that its content calls them; made from measured planes, so that
 * nothing that a camera wrote into its file is in them.
 *
 * @rule RS4, RS10
 */
export async function sheetPictures(shown: readonly ShownWindow[], signal: AbortSignal): Promise<SheetPictures> {
  const pictures = new Map<string, Uint8Array>();
  for (const one of shown) {
    const sides = sidesOf(one);
    const { scale } = layOutPictures(sizeOf(one), Math.max(1, sides.length));
    for (const { side, measured } of sides) {
      signal.throwIfAborted();
      if (!isMapped(measured)) continue;
      const luminance = luminancePanel(measured);
      const pxPerCell = Math.max(1, Math.min(8, Math.round((mapPxPerPaperMm * scale) / luminance.cellsPerMm)));
      const name = (kind: 'photo' | 'luminance' | 'unevenness'): string => pictureName(one.window.name, side, kind);
      pictures.set(name('photo'), await jpegOf(photoCanvas(windowPanel(measured))));
      pictures.set(name('luminance'), await pngOf(mapCanvas(luminance, pxPerCell)));
      pictures.set(name('unevenness'), await pngOf(mapCanvas(unevennessPanel(measured), pxPerCell)));
    }
  }
  return pictures;
}
