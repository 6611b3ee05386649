import type { Uv1976 } from '../colour/chromaticity';
import { AppError } from '../base/errors';
import type { Triple } from '../colour/matrix3';
import { mixOf, type Mix } from './mix';

/** How far a correction goes: the power of the ratio. @source our own choice against overshooting */
const damping = 0.7;
/** A lamp with less of the measured colour than this cannot be told from one without: the colour is no mix of them. */
const leastShare = 0.02;

/**
 * Factors for the currents after a measured try: (share wanted / share measured)^0.7 of each lamp. Only their ratios count.
 *
 * @param measured  chromaticity of the try's glow, by a photo like that of the target
 * @returns one factor a lamp; 1 for a lamp that the target does not need
 * @throws AppError MEASURED_OUTSIDE  when the measured colour is none that these lamps mix
 * @source weights of a mix in u'v'; damping our own choice
 * @rule LA14
 */
export function correctionFactors(wanted: Mix, measured: Uv1976, colours: readonly Triple[]): number[] {
  const found = mixOf(colours, measured).luminanceShares;
  return wanted.luminanceShares.map((share, i) => {
    if (share === 0) return 1;
    if (found[i] < leastShare) {
      const remedy =
        'Measure the try with all its lamps on, with the camera settings of the target, or leave --measured out.';
      throw new AppError('refusal', 'MEASURED_OUTSIDE', 'the measured colour is no mix of these lamps', remedy);
    }
    return (share / found[i]) ** damping;
  });
}

/**
 * Whether a correction is too small to be worth a resistor: every ratio within 3 %.
 *
 * @source our own choice: resistors have 1 to 5 %
 * @rule LA14
 */
export function isEnough(factors: readonly number[]): boolean {
  return Math.max(...factors) / Math.min(...factors) < 1.03;
}
