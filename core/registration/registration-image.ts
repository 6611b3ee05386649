import { blurMasked } from '../base/gaussian';
import type { LinearPhoto } from '../base/linear-photo';
import { createPlane, type Mask, type Plane } from '../base/plane';
import { percentilesOf } from '../base/stats';
import type { OutlineShape } from '../contract/outline';
import type { Homography } from '../window/homography';
import { measuredCells } from '../window/measured-cells';
import { borderMm, outlineMask } from '../window/outline';
import { printFreeBackground } from '../window/print-background';
import { widestMarkMm } from '../window/print-mask';
import { rectifyWindow } from '../window/rectify';
import { luminanceWeights } from '../window/rgb-weights';

/** Cells a mm: the strokes of print span two or more, and a step takes 10 ms. @rule RG3 */
export const registrationPxPerMm = 5;
/** Black is never taken to be darker than this share of the brightest light: below it there is only noise. */
const blackShare = 0.002;
const litBlackShare = 0.02;

/** A window as the registration sees it: the print's contrast alone, whatever light is behind it. */
export interface RegistrationImage {
  readonly widthMm: number;
  readonly heightMm: number;
  /** 5 cells a mm, -1.5..0.1 in ln units; NaN outside the outline or where the photo does not reach. */
  readonly contrast: Plane;
  /** The outline less its border: print next to the rim changes with the corners. */
  readonly inner: Mask;
}

/** A window in a photo, as far as its print matters. */
export interface WindowToRegister {
  readonly homography: Homography;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly shape: OutlineShape;
  /** Lit figures on black are taken as their negative. */
  readonly kind: 'dark' | 'light';
}

/**
 * The print's contrast: clip(l - background, -1.5, 0.1), l = ln of luminance smoothed over 0.12 mm, background = what it is
 * without print (rule PM1). Light fields and exposures cancel, so photos of unlike lamps look alike.
 *
 * @param photo a region that holds the window
 * @source our own choice, tried on rendered windows with eight light fields
 * @rule RG3
 */
export function registrationImageOf(photo: LinearPhoto, window: WindowToRegister): RegistrationImage {
  const { widthMm, heightMm, shape, kind } = window;
  const p = registrationPxPerMm;
  const rectified = rectifyWindow(photo, window.homography, widthMm, heightMm, p);
  const mask = measuredCells(rectified, outlineMask(shape, widthMm, heightMm, p, 0, 'centre'));
  const { width, height } = mask;
  const luminance = createPlane(width, height);
  for (let i = 0; i < luminance.values.length; i++) {
    luminance.values[i] =
      luminanceWeights[0] * rectified.red.values[i] +
      luminanceWeights[1] * rectified.green.values[i] +
      luminanceWeights[2] * rectified.blue.values[i];
  }
  const log = logLight(blurMasked(luminance, mask, 0.12 * p).blurred, mask, kind);
  const background = printFreeBackground(log, mask, p, widestMarkMm(heightMm));
  const contrast = createPlane(width, height, NaN);
  for (let i = 0; i < contrast.values.length; i++) {
    if (mask.values[i]) contrast.values[i] = Math.min(0.1, Math.max(-1.5, log.values[i] - background.values[i]));
  }
  return {
    widthMm,
    heightMm,
    contrast,
    inner: outlineMask(shape, widthMm, heightMm, p, borderMm(widthMm, heightMm), 'centre'),
  };
}

/** ln of light, or its negative for lit figures; what is below a share of the 98th percentile is lifted to it. */
function logLight(luminance: Plane, mask: Mask, kind: 'dark' | 'light'): Plane {
  const inside = luminance.values.filter((_, i) => mask.values[i]);
  const bright = inside.length ? percentilesOf(inside, [98])[0] : 0;
  const floor = Math.max(1e-6, (kind === 'light' ? litBlackShare : blackShare) * bright);
  const sign = kind === 'light' ? -1 : 1;
  const values = luminance.values.map((value) => sign * Math.log(Math.max(value, floor)));
  return { ...luminance, values };
}
