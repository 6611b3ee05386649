import { srgbFromLinear } from '../colour/transfer';
import type { RectifiedWindow } from '../window/rectified';

/** A picture as a canvas takes it: 4 bytes a pixel, sRGB. */
export interface Picture {
  readonly width: number;
  readonly height: number;
  readonly rgba: Uint8ClampedArray<ArrayBuffer>;
}

/** Steps of linear light in the table; the darkest codes are 5 steps apart, the lightest share a few. */
const steps = 16384;
const codeOf = Uint8Array.from({ length: steps + 1 }, (_, i) => Math.round(255 * srgbFromLinear(i / steps)));

/**
 * A straightened window as a picture for the screen.
 *
 * @param window  not altered; cells that the photo does not reach become transparent
 * @param gain    what light is multiplied by first; 1 shows it as the photo does
 * @source IEC 61966-2-1:1999, through a table: off by one code at most
 * @rule LV4
 */
export function pictureOf({ red, green, blue }: RectifiedWindow, gain = 1): Picture {
  const { width, height } = green;
  const rgba = new Uint8ClampedArray(4 * width * height);
  const scale = gain * steps;
  const planes = [red.values, green.values, blue.values];
  for (let i = 0; i < width * height; i++) {
    if (Number.isNaN(planes[1][i])) continue;
    for (let c = 0; c < 3; c++) {
      rgba[4 * i + c] = codeOf[Math.min(steps, Math.max(0, Math.round(planes[c][i] * scale)))];
    }
    rgba[4 * i + 3] = 255;
  }
  return { width, height, rgba };
}
