import { createMask, createPlane, type Mask, type Plane } from '../../../core/base/plane';
import type { GlowMap } from '../../../core/reading/glow-map';

/** A map of `widthMm` x `heightMm`, each cell the light at its centre. */
export function drawLight(
  widthMm: number,
  heightMm: number,
  pxPerMm: number,
  lightAt: (xMm: number, yMm: number) => number,
): Plane {
  const plane = createPlane(Math.round(widthMm * pxPerMm), Math.round(heightMm * pxPerMm));
  for (let row = 0; row < plane.height; row++) {
    for (let column = 0; column < plane.width; column++) {
      plane.values[row * plane.width + column] = lightAt((column + 0.5) / pxPerMm, (row + 0.5) / pxPerMm);
    }
  }
  return plane;
}

/** A mask on the grid of a plane, by each cell's centre. */
export function drawMask(plane: Plane, pxPerMm: number, isIn: (xMm: number, yMm: number) => boolean): Mask {
  const mask = createMask(plane.width, plane.height);
  for (let i = 0; i < mask.values.length; i++) {
    const row = Math.floor(i / plane.width);
    mask.values[i] = isIn((i - row * plane.width + 0.5) / pxPerMm, (row + 0.5) / pxPerMm) ? 1 : 0;
  }
  return mask;
}

/** A Gaussian spot of `ratio` times the light around it. */
export function spotLight(ratio: number, sigmaMm: number, x0: number, y0: number) {
  return (x: number, y: number): number =>
    1 + (ratio - 1) * Math.exp(-((x - x0) ** 2 + (y - y0) ** 2) / (2 * sigmaMm * sigmaMm));
}

/** Light that grows evenly in ln from left to right, by `ratio` in all. */
export function rampLight(ratio: number, widthMm: number) {
  return (x: number): number => Math.exp(Math.log(ratio) * (x / widthMm - 0.5));
}

/** A glow map as the measuring makes it: NaN-free colour planes, the whole outline print-free unless said otherwise. */
export function drawGlowMap(
  widthMm: number,
  heightMm: number,
  rgbAt: (xMm: number, yMm: number) => readonly [number, number, number],
  isPrint: (xMm: number, yMm: number) => boolean = () => false,
  borderMm = 1,
): GlowMap {
  const pxPerMm = 4;
  const channel = (c: number): Plane => drawLight(widthMm, heightMm, pxPerMm, (x, y) => rgbAt(x, y)[c]);
  const [red, green, blue] = [channel(0), channel(1), channel(2)];
  const relLuminance = drawLight(widthMm, heightMm, pxPerMm, (x, y) => {
    const [r, g, b] = rgbAt(x, y);
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  });
  const printFree = drawMask(green, pxPerMm, (x, y) => !isPrint(x, y));
  const isInside = (x: number, y: number): boolean =>
    x > borderMm && x < widthMm - borderMm && y > borderMm && y < heightMm - borderMm;
  const glow = drawMask(green, pxPerMm, (x, y) => isInside(x, y) && !isPrint(x, y));
  const hidden = drawMask(green, pxPerMm, (x, y) => isInside(x, y) && isPrint(x, y));
  const inside = drawMask(green, pxPerMm, isInside).values.filter(Boolean).length;
  const glowShare = glow.values.filter(Boolean).length / inside;
  return { pxPerMm, widthMm, heightMm, red, green, blue, relLuminance, printFree, glow, hidden, glowShare, borderMm };
}
