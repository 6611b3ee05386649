import { blurGaussian, blurMasked, blurredWeight } from '../base/gaussian';
import { createMask, createPlane, type Mask, type Plane } from '../base/plane';
import type { WindowPoint } from '../base/points';
import { medianOf } from '../base/stats';
import type { WindowSpec } from '../contract/measure';
import { growthMm } from './mark-growth';
import { measuredCells } from './measured-cells';
import { aboveWithHysteresis, dilateMask, openByTwo } from './morphology';
import { outlineMask } from './outline';
import { checkPolygon, polygonMask } from './polygon';
import { printFreeBackground } from './print-background';
import type { PrintMask, RectifiedWindow } from './rectified';
import { longCone, luminanceWeights, middleCone, type RgbWeights } from './rgb-weights';

/** Darker than this is no light that could be divided by (1 = full scale; 8-bit code 1 is 3e-4). */
const leastLight = 1e-4;
/** At most so many cells serve for the noise: enough for 1 %, and quick. */
const noiseSamples = 20_000;

/** Light smoothed, and its ln, of the three channels; ln of luminance. */
interface SmoothLight {
  readonly light: readonly Plane[];
  readonly channels: readonly Plane[];
  readonly luminance: Plane;
}

function logOf(light: number): number {
  return Math.log(light > leastLight ? light : leastLight);
}

/** The three channels and luminance smoothed over 0.12 mm (cells of the mask only), as ln. */
function smoothedLogLight(window: RectifiedWindow, mask: Mask): SmoothLight {
  const sigmaPx = 0.12 * window.pxPerMm;
  const weight = blurredWeight(mask, sigmaPx);
  const smooth = [window.red, window.green, window.blue].map(
    (plane) => blurMasked(plane, mask, sigmaPx, weight).blurred,
  );
  const { width, height } = mask;
  const channels = smooth.map(() => createPlane(width, height));
  const luminance = createPlane(width, height);
  for (let i = 0; i < mask.values.length; i++) {
    if (!mask.values[i]) continue;
    let sum = 0;
    for (let c = 0; c < 3; c++) {
      channels[c].values[i] = logOf(smooth[c].values[i]);
      sum += luminanceWeights[c] * smooth[c].values[i];
    }
    luminance.values[i] = logOf(sum);
  }
  return { light: smooth, channels, luminance };
}

/** Robust noise of a plane: 1.4826 times the median deviation from itself smoothed over 0.3 mm. */
function noiseOf(plane: Plane, mask: Mask, pxPerMm: number): number {
  const smooth = blurGaussian(plane, 0.3 * pxPerMm);
  const stride = Math.max(1, Math.floor(plane.values.length / noiseSamples)) | 1;
  const deviations: number[] = [];
  for (let i = 0; i < plane.values.length; i += stride) {
    if (mask.values[i]) deviations.push(plane.values[i] - smooth.values[i]);
  }
  if (deviations.length === 0) return 0;
  const middle = medianOf(deviations);
  return 1.4826 * medianOf(deviations.map((deviation) => Math.abs(deviation - middle)));
}

/** A cone's response to light in linear red, green and blue. */
function coneResponse(weights: RgbWeights, red: number, green: number, blue: number): number {
  return weights[0] * red + weights[1] * green + weights[2] * blue;
}

/** How far the cell's luminance lies below the background, in ln units (positive = darker); 0 outside the mask. */
function depthOf(luminance: Plane, background: Plane, mask: Mask): Plane {
  const depth = createPlane(mask.width, mask.height);
  for (let i = 0; i < mask.values.length; i++) {
    if (mask.values[i]) depth.values[i] = background.values[i] - luminance.values[i];
  }
  return depth;
}

/** Redness of each cell against its own background: L/L_background - M/M_background; 0 outside the mask. */
function rednessOf(light: readonly Plane[], backgrounds: readonly Plane[], mask: Mask): Plane {
  const redness = createPlane(mask.width, mask.height);
  for (let i = 0; i < mask.values.length; i++) {
    if (!mask.values[i]) continue;
    const red = Math.max(light[0].values[i], leastLight);
    const green = Math.max(light[1].values[i], leastLight);
    const blue = Math.max(light[2].values[i], leastLight);
    const redBehind = Math.exp(backgrounds[0].values[i]);
    const greenBehind = Math.exp(backgrounds[1].values[i]);
    const blueBehind = Math.exp(backgrounds[2].values[i]);
    redness.values[i] =
      coneResponse(longCone, red, green, blue) / coneResponse(longCone, redBehind, greenBehind, blueBehind) -
      coneResponse(middleCone, red, green, blue) / coneResponse(middleCone, redBehind, greenBehind, blueBehind);
  }
  return redness;
}

function darkerCells(depth: Plane, mask: Mask, pxPerMm: number): Mask {
  const noise = noiseOf(depth, mask, pxPerMm);
  return aboveWithHysteresis(depth, mask, Math.max(0.1, 4 * noise), Math.max(0.22, 6 * noise));
}

/** Redder than the background, and not merely because the cell is a little darker than a coloured one. */
function redderCells(redness: Plane, depth: Plane, mask: Mask, pxPerMm: number): Mask {
  const noise = noiseOf(redness, mask, pxPerMm);
  const red = aboveWithHysteresis(redness, mask, Math.max(0.03, 4 * noise), Math.max(0.06, 6 * noise));
  for (let i = 0; i < red.values.length; i++) {
    if (!red.values[i]) continue;
    const darkening = 1 - Math.exp(-depth.values[i]);
    if (!(redness.values[i] > 0.1 * darkening)) red.values[i] = 0;
  }
  return openByTwo(red);
}

/** Widest mark that can be found, mm: 4 mm, at most 0.3 of the window's height. @source our own choice @rule PM3 */
export function widestMarkMm(heightMm: number): number {
  return Math.min(4, 0.3 * heightMm);
}

function union(a: Mask, b: Mask): Mask {
  const either = createMask(a.width, a.height);
  for (let i = 0; i < either.values.length; i++) either.values[i] = a.values[i] | b.values[i];
  return either;
}

/** The cells of a that b does not have. */
function without(a: Mask, b: Mask): Mask {
  const rest = createMask(a.width, a.height);
  for (let i = 0; i < rest.values.length; i++) rest.values[i] = b.values[i] ? 0 : a.values[i];
  return rest;
}

/**
 * Finds dark and red print on a glowing window, from one photo.
 *
 * With l = ln of luminance smoothed over 0.12 mm and its print-free background (`printFreeBackground`, widest mark
 * min(4 mm, 0.3 H)):
 * dark:  background - l, hysteresis at max(0.10, 4 noise) and max(0.22, 6 noise).
 * red:   redness R = L/L_background - M/M_background (cone responses), hysteresis at max(0.03, 4 noise) and
 *        max(0.06, 6 noise), and R > 0.10 (1 - Y/Y_background); then what is one cell thin is dropped.
 * A mark that is red is not dark. covered = both, widened (see rule PM4).
 *
 * Not seen: solid print wider than the widest mark; red under light that has one colour only. Wrongly seen: sharp
 * shadows narrower than the widest mark, which no single photo can tell from print.
 *
 * @param window  10 cells a mm; not altered
 * @param within  where to look, on the window's grid: the outline (centre rule) less what is left out
 * @source our own choice and trials on synthetic windows; redness after Derrington, Krauskopf & Lennie 1984 and the
 *         Hunt-Pointer-Estevez matrix (both from memory)
 * @rule PM3
 */
export function findPrint(window: RectifiedWindow, within: Mask): PrintMask {
  const mask = measuredCells(window, within);
  const { light, channels, luminance } = smoothedLogLight(window, mask);
  const background = (plane: Plane) => printFreeBackground(plane, mask, window.pxPerMm, widestMarkMm(window.heightMm));
  const depth = depthOf(luminance, background(luminance), mask);
  const redness = rednessOf(light, channels.map(background), mask);
  const red = redderCells(redness, depth, mask, window.pxPerMm);
  const dark = without(darkerCells(depth, mask, window.pxPerMm), red);
  const marks = union(dark, red);
  return { dark, red, covered: dilateMask(marks, growthMm(marks, window) * window.pxPerMm) };
}

/** One mask of all polygons. */
function polygonsMask(
  polygons: readonly (readonly WindowPoint[])[],
  window: RectifiedWindow,
  rule: 'centre' | 'touch',
): Mask {
  let all = createMask(window.red.width, window.red.height);
  for (const points of polygons) {
    checkPolygon(points, window.widthMm, window.heightMm);
    all = union(all, polygonMask(points, window.widthMm, window.heightMm, window.pxPerMm, rule));
  }
  return all;
}

/**
 * The print of a window as its description has it: found inside the outline, less what is left out, plus what the
 * user painted.
 *
 * A window said to be without print is not searched. Painted areas are taken as they are, not widened, and nothing is searched in them; red paint wins over dark.
 *
 * @param window 10 cells a mm; not altered
 * @throws AppError of kind 'usage' for polygons that cannot be meant
 * @rule PM5
 */
export function printMaskOf(
  window: RectifiedWindow,
  spec: Pick<WindowSpec, 'shape' | 'print' | 'leaveOut' | 'paintedRed' | 'paintedDark'>,
): PrintMask {
  const outline = outlineMask(spec.shape, window.widthMm, window.heightMm, window.pxPerMm, 0, 'centre');
  const leftOut = polygonsMask(spec.leaveOut, window, 'touch');
  const paintedRed = polygonsMask(spec.paintedRed, window, 'centre');
  const painted = union(paintedRed, polygonsMask(spec.paintedDark, window, 'centre'));
  const searched = spec.print === 'none' ? createMask(outline.width, outline.height) : outline;
  const found = findPrint(window, without(without(searched, leftOut), painted));
  return {
    dark: union(found.dark, without(painted, paintedRed)),
    red: union(found.red, paintedRed),
    covered: union(found.covered, painted),
  };
}
