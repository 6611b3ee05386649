import { createMask, createPlane, type Plane } from '../../core/base/plane';
import { measuredMap, type MeasuredMap } from '../../core/advice/measured-map';

/** Light drawn on a window's grid of cells, sampled at their middles. */
export function drawnLight(
  widthMm: number,
  heightMm: number,
  pxPerMm: number,
  at: (xMm: number, yMm: number) => number,
): Plane {
  const plane = createPlane(Math.ceil(widthMm * pxPerMm), Math.ceil(heightMm * pxPerMm));
  for (let i = 0; i < plane.values.length; i++) {
    plane.values[i] = at(((i % plane.width) + 0.5) / pxPerMm, (Math.floor(i / plane.width) + 0.5) / pxPerMm);
  }
  return plane;
}

/** A map as a reading gives it, its rim of a mm left out. */
export function drawnMap(
  widthMm: number,
  heightMm: number,
  at: (xMm: number, yMm: number) => number,
  pxPerMm = 4,
): MeasuredMap {
  const light = drawnLight(widthMm, heightMm, pxPerMm, (x, y) => {
    const isRim = x < 1 || y < 1 || x > widthMm - 1 || y > heightMm - 1;
    return isRim ? NaN : at(x, y);
  });
  return measuredMap(light, pxPerMm, widthMm, heightMm);
}

/** Spots of light over an even glow of 1: place, peak over the glow, standard deviation in mm. */
export const spots =
  (...list: readonly { xMm: number; yMm: number; peak: number; sigmaMm: number }[]) =>
  (xMm: number, yMm: number): number =>
    list.reduce(
      (sum, spot) =>
        sum + (spot.peak - 1) * Math.exp(-((xMm - spot.xMm) ** 2 + (yMm - spot.yMm) ** 2) / (2 * spot.sigmaMm ** 2)),
      1,
    );

export const everyCell = (plane: Plane) => createMask(plane.width, plane.height, 1);
