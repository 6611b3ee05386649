import { lmsFromXyz } from '../colour/adapt';
import { deltaE00 } from '../colour/difference';
import { labFromXyz } from '../colour/lab';
import type { Triple } from '../colour/matrix3';

/** Spread of the eye's colour channel, degrees: halves it at 3.5 periods a degree. */
const colourBlurDeg = 0.0535;
/** Redness and contrast that are just seen. */
const leastRedness = 0.01;
const leastContrast = 0.02;

/**
 * Redness of a mark against the glow beside it: L_mark / L_glow - M_mark / M_glow with the long and middle cones.
 *
 * 0 for a mark that is merely darker; about 0.15 for red print on filament light, 0.015 on narrow amber light. Each cone is
 * adapted to the glow, so that no white point and no exposure enters.
 *
 * @param markXyz @param glowXyz  at one scale
 * @throws RangeError when the glow has no cone response
 * @source cone contrasts after Derrington, Krauskopf & Lennie 1984; Hunt-Pointer-Estevez matrix (both from memory)
 * @rule RP3
 */
export function rednessOf(markXyz: Triple, glowXyz: Triple): number {
  const mark = lmsFromXyz(markXyz);
  const glow = lmsFromXyz(glowXyz);
  if (!(glow[0] > 0) || !(glow[1] > 0)) throw new RangeError(`glow without cone response: ${glowXyz}`);
  return mark[0] / glow[0] - mark[1] / glow[1];
}

/**
 * CIEDE2000 of a mark against the glow beside it, the glow taken as white.
 *
 * @source see `deltaE00` and `labFromXyz`
 * @rule RP5
 */
export function markDifference(markXyz: Triple, glowXyz: Triple): number {
  return deltaE00(labFromXyz(markXyz, glowXyz), labFromXyz(glowXyz, glowXyz));
}

/**
 * Error function, error below 1.5e-7.
 *
 * @source Abramowitz & Stegun, Handbook of mathematical functions, 7.1.26 (from memory)
 */
export function errorFunction(x: number): number {
  const t = 1 / (1 + 0.3275911 * Math.abs(x));
  const series = ((((1.061405429 * t - 1.453152027) * t + 1.421413741) * t - 0.284496736) * t + 0.254829592) * t;
  const value = 1 - series * Math.exp(-x * x);
  return x < 0 ? -value : value;
}

/**
 * How much of a stroke's colour the eye's coarse colour channel leaves, 0..1: erf(w / (2 sqrt 2 s)), s = 0.0535 degrees.
 *
 * 0.716 for 1 mm at 500 mm.
 *
 * @param strokeMm  0 or more
 * @source limit of the colour channel: Mullen 1985; half at 3.5 periods a degree is our own choice
 * @rule RP4
 */
export function widthFactor(strokeMm: number, viewingDistanceMm: number): number {
  const strokeDeg = ((strokeMm / viewingDistanceMm) * 180) / Math.PI;
  return errorFunction(strokeDeg / (2 * Math.SQRT2 * colourBlurDeg));
}

/**
 * How well a mark is seen at all, in units of what is just seen: sqrt((A R / 0.01)^2 + (C / 0.02)^2).
 *
 * @param width  factor of the stroke's width, 0..1
 * @source our own choice of both thresholds
 * @rule RP4
 */
export function markVisibility(redness: number, luminanceContrast: number, width: number): number {
  return Math.sqrt(((width * redness) / leastRedness) ** 2 + (luminanceContrast / leastContrast) ** 2);
}

/** Widths in photo pixels, and the share of a stroke's redness that a photo keeps there. */
const keptShares = [
  { strokePx: 3.3, kept: 0.67 },
  { strokePx: 4.4, kept: 0.88 },
  { strokePx: 6, kept: 1 },
] as const;

/**
 * Share of a stroke's redness that is left in a photo whose pixels are coarse, 0.67..1: straight lines through 3.3 px 0.67, 4.4 px
 * 0.88, 6 px 1.
 *
 * @param strokePx  width in photo pixels
 * @source our own choice, after rendered JPEGs with halved colour resolution; above 6 px 4 to 8 % are left uncorrected
 * @rule RP6
 */
export function fillFactor(strokePx: number): number {
  const [thin, middle, full] = keptShares;
  if (strokePx >= full.strokePx) return full.kept;
  const [from, to] = strokePx < middle.strokePx ? [thin, middle] : [middle, full];
  const share = (Math.max(strokePx, thin.strokePx) - from.strokePx) / (to.strokePx - from.strokePx);
  return from.kept + share * (to.kept - from.kept);
}
