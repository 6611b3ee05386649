import '../decode/wasm-only';
import { assertSameShape, type Mask } from '../../base/plane';
import type { MappedWindow } from '../../contract/measure';
import type { MapPaths } from '../../contract/readings';
import type { Canvas } from './canvas';
import { chromaticityCsv, glowLuminanceCsv } from './map-csv';
import { chromaticityPicture, luminancePicture, unevennessPicture, windowPicture } from './reading-pictures';
import { loadSharp } from '../decode/load-sharp';

/** PNG of a picture, sRGB, 8 bits a channel. */
export async function pngOf(canvas: Canvas): Promise<Buffer> {
  // Loaded when the first picture is made: most runs make none.
  const sharp = loadSharp();
  const { width, height, rgb } = canvas;
  return sharp(rgb, { raw: { width, height, channels: 3 } })
    .png({ compressionLevel: 9 })
    .toBuffer();
}

/** The print found: red channel red print, green channel dark print, 255 = print. @rule MP2 */
export function printMaskPicture(red: Mask, dark: Mask): Canvas {
  assertSameShape(red, dark);
  const rgb = new Uint8Array(3 * red.width * red.height);
  for (let i = 0; i < red.values.length; i++) {
    rgb[3 * i] = red.values[i] ? 255 : 0;
    rgb[3 * i + 1] = dark.values[i] ? 255 : 0;
  }
  return { width: red.width, height: red.height, rgb };
}

/**
 * Writes maps and pictures of one reading.
 *
 * @param name  file name without ending, safe and not taken
 * @param write puts a file of that name into the folder of the maps
 * @returns the names of the files that the readings document names
 * @rule MP2, MP4
 */
export async function writeMaps(
  entry: MappedWindow,
  name: string,
  write: (file: string, content: string | Uint8Array) => Promise<void>,
): Promise<MapPaths> {
  const { maps } = entry;
  const files: MapPaths = {
    glowLuminance: `${name}.glow-luminance.csv`,
    chromaticity: `${name}.chromaticity.csv`,
    printMask: `${name}.print-mask.png`,
  };
  await write(files.glowLuminance, glowLuminanceCsv(maps));
  await write(files.chromaticity, chromaticityCsv(maps));
  await write(files.printMask, await pngOf(printMaskPicture(maps.redPrint, maps.darkPrint)));
  await write(`${name}.luminance.png`, await pngOf(luminancePicture(entry)));
  await write(`${name}.unevenness.png`, await pngOf(unevennessPicture(entry)));
  await write(`${name}.chromaticity.png`, await pngOf(chromaticityPicture(entry)));
  await write(`${name}.window.png`, await pngOf(windowPicture(entry)));
  return files;
}
