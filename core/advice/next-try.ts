import { uvDistance } from '../colour/steps';
import type { Uv1976 } from '../colour/chromaticity';
import { AppError } from '../base/errors';
import type { Triple } from '../colour/matrix3';
import { mixOf, type Mix } from './mix';

/** How far a correction goes when the currents of the try were not told: the power of the ratio. */
const damping = 0.7;
/** A lamp with less of the measured colour than this cannot be told from one without: the colour is no mix of them. */
const leastShare = 0.02;
/** Nearer than this, in u'v', or with every ratio within 3 %, resistors of 1 to 5 % cannot better it. */
const nearEnoughUv = 0.0022;
const leastChange = 1.03;

/** What a measured try says of the next one. */
export interface Correction {
  /** For each lamp's current; 1 for a lamp that the target does not need. Only their ratios count. */
  readonly factors: readonly number[];
  /** The try is as near as resistors can bring it. */
  readonly isEnough: boolean;
}

/**
 * The correction after a measured try: each current times (share wanted / share measured), to the power 0.7 when the currents of the
 * try were not told.
 *
 * It is enough when the try differs from the nearest mix by 2 steps or less, or when no ratio changes by 3 %, whichever asks for more.
 *
 * @param measured      chromaticity of the try's glow, by a photo like that of the target
 * @param areCurrentsKnown  those of the try: what is corrected is then what flowed
 * @returns a refusal MEASURED_OUTSIDE when the measured colour is none that these lamps mix
 * @source weights of a mix in u'v'; damping and bounds our own choice, from tries that were rendered: damped ones needed a fourth
 * @rule LA14
 */
export function correctionOf(
  wanted: Mix,
  measured: Uv1976,
  colours: readonly Triple[],
  areCurrentsKnown: boolean,
): Correction | AppError {
  const found = mixOf(colours, measured);
  const shares = wanted.luminanceShares;
  if (shares.some((share, i) => share > 0 && found.luminanceShares[i] < leastShare)) {
    const remedy =
      'Measure the try with all its lamps on, with the camera settings of the target, or leave --measured out.';
    return new AppError('refusal', 'MEASURED_OUTSIDE', 'the measured colour is no mix of these lamps', remedy);
  }
  const power = areCurrentsKnown ? 1 : damping;
  const factors = shares.map((share, i) => (share === 0 ? 1 : (share / found.luminanceShares[i]) ** power));
  const isSmall = Math.max(...factors) / Math.min(...factors) < leastChange;
  return { factors, isEnough: isSmall && uvDistance(found.reached, wanted.reached) <= nearEnoughUv };
}
