import { createPlane, type Plane } from '../base/plane';
import type { CameraFacts } from '../contract/readings';
import type { ColourPlanes } from '../photo/lamp-off';
import { photoPointOf } from '../window/homography';
import type { FlatField } from './flat-field';
import type { PhotoInLight, WindowPlace } from './photo-in-light';

/** What became of a flat field: divided by, or refused with a clause that says why. */
export type FlatFieldUse =
  { readonly state: 'divided'; readonly lens: Plane } | { readonly state: 'refused'; readonly reason: string };

/** A rounding of EXIF, not another setting. @source our own choice */
const settingTolerance = 0.01;

const settings = [
  ['focalLengthMm', 'the focal lengths differ'],
  ['fNumber', 'the f-numbers differ'],
] as const satisfies readonly (readonly [keyof CameraFacts, string])[];

/** Why a flat field is not one of the lit photo's lens as it was set, or null. What a photo does not tell is not held against it. */
function settingsMismatch(lit: PhotoInLight, flat: FlatField): string | null {
  const [a, b] = [lit.camera, flat.camera];
  if (a.model !== undefined && b.model !== undefined && a.model !== b.model) return 'it is from another camera';
  for (const [key, reason] of settings) {
    const [first, second] = [a[key], b[key]];
    if (first === undefined || second === undefined) continue;
    if (Math.abs(first - second) > settingTolerance * Math.max(first, second)) return reason;
  }
  const size = (photo: { readonly widthPx: number; readonly heightPx: number }): string =>
    `${photo.widthPx} x ${photo.heightPx} px`;
  return size(lit.linear) === size(flat)
    ? null
    : `its frame is ${size(flat)}, that of the lit photo ${size(lit.linear)}`;
}

/** The lens's share of light on the window's grid, bilinear from the coarse one. */
function onWindow({ relLuminance, widthPx, heightPx }: FlatField, place: WindowPlace, grid: ColourPlanes): Plane {
  const { width, height, values } = relLuminance;
  const plane = createPlane(grid.green.width, grid.green.height);
  const [stepX, stepY] = [place.widthMm / plane.width, place.heightMm / plane.height];
  const clamp = (value: number, most: number): number => Math.min(Math.max(value, 0), most);
  for (let row = 0, at = 0; row < plane.height; row++) {
    for (let column = 0; column < plane.width; column++, at++) {
      const point = photoPointOf(place.homography, { xMm: (column + 0.5) * stepX, yMm: (row + 0.5) * stepY });
      const x = clamp((point.column / widthPx) * width - 0.5, width - 1);
      const y = clamp((point.row / heightPx) * height - 0.5, height - 1);
      const [left, top] = [Math.floor(x), Math.floor(y)];
      const [right, bottom] = [Math.min(left + 1, width - 1), Math.min(top + 1, height - 1)];
      const upper = values[top * width + left] * (left + 1 - x) + values[top * width + right] * (x - left);
      const lower = values[bottom * width + left] * (left + 1 - x) + values[bottom * width + right] * (x - left);
      plane.values[at] = upper * (top + 1 - y) + lower * (y - top);
    }
  }
  return plane;
}

/**
 * The lens's share of light over a window, to divide by; or why the flat field does not fit the photo.
 *
 * @param grid  planes of the window seen straight on: only their size counts
 * @source common practice (flat-field correction); which settings must agree is our own choice
 * @rule CP3
 */
export function useFlatField(lit: PhotoInLight, flat: FlatField, place: WindowPlace, grid: ColourPlanes): FlatFieldUse {
  const reason = settingsMismatch(lit, flat) ?? flat.problem;
  return reason === null ? { state: 'divided', lens: onWindow(flat, place, grid) } : { state: 'refused', reason };
}

/** Planes over the lens's share of light. @rule CP3 */
export function dividedBy<T extends ColourPlanes>(planes: T, lens: Plane): T {
  const divided = (plane: Plane): Plane => ({
    ...plane,
    values: plane.values.map((value, i) => value / lens.values[i]),
  });
  return { ...planes, red: divided(planes.red), green: divided(planes.green), blue: divided(planes.blue) };
}
