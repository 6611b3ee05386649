import { greenClipped, type LinearPhoto } from '../../../core/base/linear-photo';
import type { Corners } from '../../../core/base/points';
import type { CameraFacts } from '../../../core/contract/readings';
import type { PhotoInLight, WindowPlace } from '../../../core/preparation/photo-in-light';
import { homographyFromCorners } from '../../../core/window/homography';
import { seededNumbers } from '../photo/draw-decoded';

/** A scale of 30 x 12 mm, 10 photo pixels a mm, its corner at pixel (20, 20) of a photo of 340 x 160. */
export const pxPerMm = 10;
const [widthMm, heightMm, marginPx] = [30, 12, 20];
const widthPx = widthMm * pxPerMm + 2 * marginPx;
const heightPx = heightMm * pxPerMm + 2 * marginPx;
const corners: Corners = [
  { column: marginPx, row: marginPx },
  { column: widthPx - marginPx, row: marginPx },
  { column: widthPx - marginPx, row: heightPx - marginPx },
  { column: marginPx, row: heightPx - marginPx },
];

export const place: WindowPlace = {
  corners,
  homography: homographyFromCorners(corners, widthMm, heightMm),
  widthMm,
  heightMm,
  shape: { kind: 'rectangle' },
};

export const camera: CameraFacts = {
  make: 'Maker',
  model: 'One',
  exposureS: 0.1,
  fNumber: 4,
  iso: 100,
  focalLengthMm: 50,
  whiteBalance: 'manual',
};

/** Strokes of 0.5 mm at uneven distances, and a line: no shift lays them on themselves. */
function isPrint(xMm: number, yMm: number): boolean {
  const strokes = [2, 4.5, 8, 10, 13.5, 17.5, 19, 23, 27.5];
  return (yMm > 4 && yMm < 8 && strokes.some((at) => xMm >= at && xMm < at + 0.5)) || (yMm > 9 && yMm < 9.5 && xMm > 6);
}

export interface DrawnScale {
  /** Of the unprinted scale, 1 = full scale. */
  readonly light: (xMm: number, yMm: number) => number;
  /** What print lets through or throws back; 1: nothing is printed. */
  readonly print: number;
  /** Share of the light, one standard deviation about. */
  readonly noise?: number;
  /** How far the frame moved, mm. */
  readonly movedMm?: number;
  readonly clipped?: boolean;
  readonly camera?: Partial<CameraFacts>;
  readonly name?: string;
  readonly frame?: { readonly widthPx: number; readonly heightPx: number };
}

/** A photo of the scale in linear light, grey; beside the scale the panel is black. */
export function drawScale(scale: DrawnScale): PhotoInLight {
  const { light, print, noise = 0, movedMm = 0, clipped = false, name = 'photo' } = scale;
  const next = seededNumbers(name.length);
  const rgb = new Float32Array(widthPx * heightPx * 3);
  for (let row = 0, at = 0; row < heightPx; row++) {
    for (let column = 0; column < widthPx; column++, at += 3) {
      const xMm = (column + 0.5 - marginPx) / pxPerMm - movedMm;
      const yMm = (row + 0.5 - marginPx) / pxPerMm;
      const inside = xMm > 0 && yMm > 0 && xMm < widthMm && yMm < heightMm;
      // The sum of three uniform numbers, of deviation 1.
      const dither = 2 * (next() + next() + next()) - 3;
      const value = inside ? light(xMm, yMm) * (isPrint(xMm, yMm) ? print : 1) * (1 + noise * dither) : 0;
      rgb.fill(value, at, at + 3);
    }
  }
  const linear: LinearPhoto = {
    region: { column: 0, row: 0, width: widthPx, height: heightPx },
    widthPx,
    heightPx,
    ...scale.frame,
    rgb,
    flags: new Uint8Array(widthPx * heightPx).fill(clipped ? greenClipped : 0),
    colourSpace: 'linear sRGB',
    colourSpaceAssumed: false,
    response: 'linear',
  };
  return { file: name, sha256: name, camera: { ...camera, ...scale.camera }, linear };
}
