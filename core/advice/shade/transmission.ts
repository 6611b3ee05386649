import { blurGaussian } from '../../base/gaussian';
import type { Plane } from '../../base/plane';
import type { GapBlur } from './gap-blur';

/** Toner and pens let a little through; more contrast than this cannot be made. */
export const leastTransmission = 0.03;

/**
 * What a shade that lies on the scale has to let through: min(1, target / light).
 *
 * @returns 0.03..1
 * @source proportion; the least is our own choice: what an office printer's black lets through
 * @rule AV4
 */
export function transmissionFor(relLuminance: number, target: number): number {
  return Math.min(1, Math.max(leastTransmission, target / relLuminance));
}

/** Density of a transmission. @source ISO 5-1, definition @rule AV4 */
export function densityOf(transmission: number): number {
  return -Math.log10(transmission) + 0;
}

/**
 * Share of the area that ink of a transmission must cover: (1 - T) / (1 - T_ink).
 *
 * @returns 0..1
 * @source Murray & Davies 1936 (from memory)
 * @rule AV4
 */
export function dotAreaOf(transmission: number, inkTransmission: number): number {
  return Math.min(1, Math.max(0, (1 - transmission) / (1 - inkTransmission)));
}

const map = (plane: Plane, of: (i: number) => number): Plane => ({
  ...plane,
  values: plane.values.map((_, i) => of(i)),
});

const sourceSteps = 15;

/**
 * The light at the shade's place, of which the scale shows a blurred picture.
 *
 * S <- S (K * (L / (K * S))), 15 times.
 *
 * @param light above 0, without noise; not altered
 * @source Richardson 1972, Lucy 1974 (from memory); 15 steps: our own choice, more only sharpen the noise
 * @rule AV5
 */
export function sourceLight(light: Plane, blur: GapBlur): Plane {
  let source = light;
  for (let step = 0; step < sourceSteps; step++) {
    const shown = blur(source);
    const missing = blur(map(light, (i) => light.values[i] / Math.max(shown.values[i], 1e-9)));
    const before = source;
    source = map(light, (i) => Math.max(before.values[i] * missing.values[i], 1e-9));
  }
  return source;
}

const correctionSteps = 15;
/** Neither a printer nor a pen makes a finer shade, mm; half of the width that is smoothed over. */
const smoothingSigmaMm = 0.5;

/**
 * What the shade has to let through at its gap, so that the scale shows the target where there was more.
 *
 * T <- T t / (K * (T S)), 15 times, cut to 0.03..1, then ln T smoothed over 1 mm.
 *
 * @param light  above 0; not altered
 * @param source light at the shade's place
 * @source our own choice: multiplicative correction
 * @rule AV5
 */
export function correctedTransmission(
  light: Plane,
  source: Plane,
  target: number,
  blur: GapBlur,
  pxPerMm: number,
): Plane {
  let shade = map(light, (i) => transmissionFor(light.values[i], target));
  for (let step = 0; step < correctionSteps; step++) {
    const before = shade;
    const shown = blur(map(light, (i) => before.values[i] * source.values[i]));
    shade = map(light, (i) => transmissionFor(shown.values[i], before.values[i] * target));
  }
  const smooth = blurGaussian(
    map(shade, (i) => Math.log(shade.values[i])),
    smoothingSigmaMm * pxPerMm,
  );
  return map(smooth, (i) => Math.exp(smooth.values[i]));
}
