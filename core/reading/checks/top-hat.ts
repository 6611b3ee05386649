import { createMask, createPlane, type Mask, type Plane } from '../../base/plane';
import { medianOf } from '../../base/stats';
import { closeGrey } from '../../window/morphology';
import { luminanceWeights } from '../../window/rgb-weights';
import type { RectifiedWindow } from '../../window/rectified';

/** Light of the window on a grid half as fine, where it is free of print. */
export interface CoarseLight {
  readonly pxPerMm: number;
  /** 1 where all four cells beneath count. */
  readonly cells: Mask;
  /** ln of luminance; 0 elsewhere. */
  readonly logLuminance: Plane;
  /** ln of blue over red: higher is cooler; 0 elsewhere. */
  readonly coolness: Plane;
  /** 1 where a channel is clipped beneath. */
  readonly clipped: Mask;
  /** Of ln of luminance and of the coolness, from place to place. */
  readonly noise: { readonly luminance: number; readonly coolness: number };
}

/** Keeps channels that hold no light from deciding: 0.5 % of full scale. */
const floor = 0.005;

/** Cells so far apart (0.4 mm) share no pixel of a photo that is sharp enough to be judged. */
const apart = 2;

/** 1.4826 times the median difference of cells side by side over the root of 2: slopes and edges are few. */
function noiseOf(plane: Plane, cells: Mask): number {
  const differences: number[] = [];
  for (let i = 0; i + apart < plane.values.length; i++) {
    if (cells.values[i] && cells.values[i + apart])
      differences.push(Math.abs(plane.values[i + apart] - plane.values[i]));
  }
  return differences.length ? (1.4826 * medianOf(differences)) / Math.SQRT2 : 0;
}

/**
 * Means of two by two cells of the straightened window, which takes noise out and makes what follows four times quicker.
 *
 * @param cells  glow free of print, on the window's grid; not altered
 * @source our own choice
 * @rule CK5
 */
export function coarseLight(window: RectifiedWindow, cells: Mask): CoarseLight {
  const width = Math.floor(cells.width / 2);
  const height = Math.floor(cells.height / 2);
  const [ofRed, ofGreen, ofBlue] = luminanceWeights;
  const coarse = createMask(width, height);
  const clipped = createMask(width, height);
  const logLuminance = createPlane(width, height);
  const coolness = createPlane(width, height);
  for (let at = 0; at < coarse.values.length; at++) {
    const row = Math.floor(at / width);
    const first = 2 * row * cells.width + 2 * (at - row * width);
    const four = [first, first + 1, first + cells.width, first + cells.width + 1];
    if (!four.every((i) => cells.values[i])) continue;
    const mean = ({ values }: Plane): number => Math.max(0, four.reduce((sum, i) => sum + values[i], 0) / 4);
    const [red, green, blue] = [mean(window.red), mean(window.green), mean(window.blue)];
    if (!Number.isFinite(red + green + blue)) continue;
    coarse.values[at] = 1;
    logLuminance.values[at] = Math.log(ofRed * red + ofGreen * green + ofBlue * blue + floor);
    coolness.values[at] = Math.log((blue + floor) / (red + floor));
    const isClipped = (i: number): number =>
      window.redClipped.values[i] | window.greenClipped.values[i] | window.blueClipped.values[i];
    clipped.values[at] = four.some((i) => isClipped(i)) ? 1 : 0;
  }
  const noise = { luminance: noiseOf(logLuminance, coarse), coolness: noiseOf(coolness, coarse) };
  return { pxPerMm: window.pxPerMm / 2, cells: coarse, logLuminance, coolness, clipped, noise };
}

/**
 * By how much each cell stands above its surroundings: itself minus its grey opening with a disk. Bright patches that the
 * disk does not fit into stay, slopes and wide hills go.
 *
 * @param plane, cells  not altered
 * @param diameterMm    of the disk
 * @returns 0 or more; 0 outside the cells
 * @source white top-hat: Serra 1982 (from memory)
 * @rule CK5
 */
export function topHat(plane: Plane, cells: Mask, pxPerMm: number, diameterMm: number): Plane {
  const turned = { ...plane, values: plane.values.map((value) => -value) };
  const closed = closeGrey(turned, cells, (diameterMm / 2) * pxPerMm);
  const values = plane.values.map((value, i) => (cells.values[i] ? Math.max(0, value + closed.values[i]) : 0));
  return { ...plane, values };
}
