import { blurGaussian, blurMasked } from '../base/gaussian';
import { createMask, createPlane, type Mask, type Plane } from '../base/plane';
import type { WindowPoint } from '../base/points';
import { medianOf } from '../base/stats';
import type { WindowSpec } from '../contract/measure';
import { aboveWithHysteresis, dilateMask, openByTwo } from './morphology';
import { outlineMask } from './outline';
import { checkPolygon, polygonMask } from './polygon';
import { printFreeBackground } from './print-background';
import type { PrintMask, RectifiedWindow } from './rectified';

/** Luminance of linear sRGB (IEC 61966-2-1). */
const luminanceWeights = [0.2126, 0.7152, 0.0722] as const;
/** Long and middle cone responses of linear sRGB, D65: Hunt-Pointer-Estevez rows times the sRGB-to-XYZ matrix. */
const longCone = [0.31400652, 0.63952605, 0.04649526] as const;
const middleCone = [0.15537666, 0.75790876, 0.08670286] as const;
/** Darker than this is no light that could be divided by (1 = full scale; 8-bit code 1 is 3e-4). */
const leastLight = 1e-4;
/** At most so many cells serve for the noise: enough for 1 %, and quick. */
const noiseSamples = 20_000;

type Rgb = readonly [number, number, number];

/** ln of light, smoothed, of the three channels and of luminance. */
interface LogLight {
  readonly channels: readonly Plane[];
  readonly luminance: Plane;
}

function logOf(light: number): number {
  return Math.log(light > leastLight ? light : leastLight);
}

/** The three channels and luminance smoothed over 0.12 mm (cells of the mask only), as ln. */
function smoothedLogLight(window: RectifiedWindow, mask: Mask): LogLight {
  const smooth = [window.red, window.green, window.blue].map(
    (plane) => blurMasked(plane, mask, 0.12 * window.pxPerMm).blurred,
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
  return { channels, luminance };
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

/** A cone's response to one cell of three ln planes. */
function coneResponse(weights: Rgb, [red, green, blue]: readonly Plane[], at: number): number {
  return (
    weights[0] * Math.exp(red.values[at]) +
    weights[1] * Math.exp(green.values[at]) +
    weights[2] * Math.exp(blue.values[at])
  );
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
function rednessOf(channels: readonly Plane[], backgrounds: readonly Plane[], mask: Mask): Plane {
  const redness = createPlane(mask.width, mask.height);
  for (let i = 0; i < mask.values.length; i++) {
    if (!mask.values[i]) continue;
    redness.values[i] =
      coneResponse(longCone, channels, i) / coneResponse(longCone, backgrounds, i) -
      coneResponse(middleCone, channels, i) / coneResponse(middleCone, backgrounds, i);
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
    const darkening = 1 - Math.exp(-depth.values[i]);
    if (!(redness.values[i] > 0.1 * darkening)) red.values[i] = 0;
  }
  return openByTwo(red);
}

/** Widest mark that can be found: 4 mm, at most 0.3 of the window's height. @rule PM3 */
export function widestMarkMm(heightMm: number): number {
  return Math.min(4, 0.3 * heightMm);
}

/** Height in cells of the tallest connected mark (8 neighbours); 0 without marks. */
function tallestMarkPx(marks: Mask): number {
  const left: Mask = { width: marks.width, height: marks.height, values: marks.values.slice() };
  let tallest = 0;
  for (let seed = 0; seed < left.values.length; seed++) {
    if (left.values[seed]) tallest = Math.max(tallest, takeMark(left, seed));
  }
  return tallest;
}

/** Takes the mark that holds `seed` out of `left`; its height in cells. */
function takeMark(left: Mask, seed: number): number {
  const { width, height, values } = left;
  const stack = [seed];
  values[seed] = 0;
  let top = height;
  let bottom = -1;
  while (stack.length > 0) {
    const at = stack.pop()!;
    const column = at % width;
    const row = (at - column) / width;
    top = Math.min(top, row);
    bottom = Math.max(bottom, row);
    for (let y = Math.max(0, row - 1); y <= Math.min(height - 1, row + 1); y++) {
      for (let x = Math.max(0, column - 1); x <= Math.min(width - 1, column + 1); x++) {
        if (!values[y * width + x]) continue;
        values[y * width + x] = 0;
        stack.push(y * width + x);
      }
    }
  }
  return bottom - top + 1;
}

/**
 * How far print is widened before the rest counts as glow, for its blurred edge.
 *
 * 0.4 mm; in windows under 9 mm height at most 0.1 of the tallest mark, but at least 0.2 mm, as less would leave
 * blurred edges in the glow.
 *
 * @source our own choice: in small windows 0.4 mm would eat the counters of the figures
 * @rule PM4
 */
function growthMm(marks: Mask, window: RectifiedWindow): number {
  if (window.heightMm >= 9) return 0.4;
  return Math.min(0.4, Math.max(0.2, (0.1 * tallestMarkPx(marks)) / window.pxPerMm));
}

function union(a: Mask, b: Mask): Mask {
  return { width: a.width, height: a.height, values: a.values.map((value, i) => value | b.values[i]) };
}

/** The cells of a that b does not have. */
function without(a: Mask, b: Mask): Mask {
  return { width: a.width, height: a.height, values: a.values.map((value, i) => (b.values[i] ? 0 : value)) };
}

/** Where all three channels were measured. */
function measured(window: RectifiedWindow, mask: Mask): Mask {
  const values = mask.values.map((value, i) =>
    value && Number.isFinite(window.red.values[i] + window.green.values[i] + window.blue.values[i]) ? 1 : 0,
  );
  return { width: mask.width, height: mask.height, values };
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
  const mask = measured(window, within);
  const { channels, luminance } = smoothedLogLight(window, mask);
  const background = (plane: Plane) => printFreeBackground(plane, mask, window.pxPerMm, widestMarkMm(window.heightMm));
  const depth = depthOf(luminance, background(luminance), mask);
  const redness = rednessOf(channels, channels.map(background), mask);
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
 * Painted areas are taken as they are, not widened, and nothing is searched in them; red paint wins over dark.
 *
 * @param window 10 cells a mm; not altered
 * @throws AppError of kind 'usage' for polygons that cannot be meant
 * @rule PM5
 */
export function printMaskOf(
  window: RectifiedWindow,
  spec: Pick<WindowSpec, 'shape' | 'leaveOut' | 'paintedRed' | 'paintedDark'>,
): PrintMask {
  const outline = outlineMask(spec.shape, window.widthMm, window.heightMm, window.pxPerMm, 0, 'centre');
  const leftOut = polygonsMask(spec.leaveOut, window, 'touch');
  const paintedRed = polygonsMask(spec.paintedRed, window, 'centre');
  const painted = union(paintedRed, polygonsMask(spec.paintedDark, window, 'centre'));
  const found = findPrint(window, without(without(outline, leftOut), painted));
  return {
    dark: union(found.dark, without(painted, paintedRed)),
    red: union(found.red, paintedRed),
    covered: union(found.covered, painted),
  };
}
