import type { LinearPhoto } from '../../core/base/linear-photo';
import { seededRandom } from './seeded-random';

/** Light at a place of the photo, px: red, green and blue. */
export type Drawing = (column: number, row: number) => readonly [number, number, number];

/** A photo of a drawing: each pixel is the mean of 3 x 3 places (or as told), with a little noise (fixed seed). */
export function drawnPhoto(
  widthPx: number,
  heightPx: number,
  drawing: Drawing,
  noise = 0.0005,
  samplesPerSide = 3,
): LinearPhoto {
  const random = seededRandom(83);
  const rgb = new Float32Array(widthPx * heightPx * 3);
  for (let row = 0; row < heightPx; row++) {
    for (let column = 0; column < widthPx; column++) {
      const at = 3 * (row * widthPx + column);
      for (let i = 0; i < samplesPerSide ** 2; i++) {
        const x = column + ((i % samplesPerSide) + 0.5) / samplesPerSide;
        const y = row + (Math.floor(i / samplesPerSide) + 0.5) / samplesPerSide;
        drawing(x, y).forEach((light, channel) => (rgb[at + channel] += light / samplesPerSide ** 2));
      }
      for (let channel = 0; channel < 3; channel++) rgb[at + channel] += noise * (random() - 0.5);
    }
  }
  return {
    region: { column: 0, row: 0, width: widthPx, height: heightPx },
    widthPx,
    heightPx,
    rgb,
    flags: new Uint8Array(widthPx * heightPx),
    colourSpace: 'sRGB',
    colourSpaceAssumed: false,
    response: 'linear',
  };
}
