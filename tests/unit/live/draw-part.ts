import type { Corners } from '../../../core/base/points';
import type { LinearPart } from '../../../core/contract/bench';
import { homographyFromCorners, windowPointOf } from '../../../core/window/homography';

export type LightAt = (xMm: number, yMm: number) => number;

export const photo = { widthPx: 1400, heightPx: 700 };

/** A window of 60 x 25 mm seen slightly from the left and below, about 20 px a mm. */
export const corners: Corners = [
  { column: 100, row: 80 },
  { column: 1290, row: 100 },
  { column: 1270, row: 610 },
  { column: 120, row: 590 },
];

/** Amber light of a window as it lies in a photo, black about it; one sample a pixel. */
export function drawPart(lightAt: LightAt, size = { widthMm: 60, heightMm: 25 }, at = corners): LinearPart {
  const { widthPx: width, heightPx: height } = photo;
  const homography = homographyFromCorners(at, size.widthMm, size.heightMm);
  const rgb = new Float32Array(3 * width * height);
  for (let row = 0; row < height; row++) {
    for (let column = 0; column < width; column++) {
      const { xMm, yMm } = windowPointOf(homography, { column: column + 0.5, row: row + 0.5 });
      const isInside = xMm >= 0 && yMm >= 0 && xMm < size.widthMm && yMm < size.heightMm;
      const light = isInside ? lightAt(xMm, yMm) : 0.001;
      rgb.set([0.8 * light, 0.44 * light, 0.12 * light], 3 * (row * width + column));
    }
  }
  return { region: { column: 0, row: 0, width, height }, reducedBy: 1, width, height, rgb };
}
