import { AppError } from '../base/errors';
import type { Led } from './led';
import { ratingOf } from './resistors';

/** Share of the supply's volts that a resistor needs to hold a current: below the first a warning, below the second none. */
export const warnDropShare = 0.25;
const leastDropShare = 0.15;

/** A string before its resistor is chosen. */
export interface WantedString {
  readonly led: Led;
  /** 0: the mix does not need it. */
  readonly currentMa: number;
}

const refused = (code: string, message: string, remedy: string): AppError =>
  new AppError('refusal', code, message, remedy);

/** Why the light of some lamps cannot be compared; null when it can. @rule LA15 */
export function lightRefusal(leds: readonly Led[], lights: readonly (number | null)[]): AppError | null {
  const names = leds.filter((_, i) => lights[i] === null).map(({ name }) => name);
  if (names.length === 0) return null;
  const message = `the light of ${names.join(', ')} is not known: candela say nothing without the viewing angle`;
  const remedy =
    'Add angleDeg= (full viewing angle) beside mcd=, or lm=, with atMa= for either; or --same-lens when all lenses are alike.';
  return refused('LIGHT_UNKNOWN', message, remedy);
}

/**
 * Why no resistor may be printed for these strings; null when they may: current over the maximum, or a supply that leaves the
 * resistor less than 15 % of its volts, or a resistor hotter than those with leads bear.
 *
 * @param leastV   the least volts that the supply gives
 * @param designV  the most
 * @source our own choice: with 15 % a tenth more supply raises the current by two thirds
 * @rule LA15
 */
export function stringRefusal(strings: readonly WantedString[], leastV: number, designV: number): AppError | null {
  for (const { led, currentMa } of strings) {
    if (currentMa === 0) continue;
    const ledsV = led.inSeries * led.forwardV;
    if (currentMa > led.maxMa * (1 + 1e-9)) {
      const message = `${led.name} would carry ${currentMa.toFixed(1)} mA, over its maximum of ${led.maxMa} mA`;
      return refused(
        'CURRENT_TOO_HIGH',
        message,
        'Give a smaller --current, or leave it out: half the maximum is then kept.',
      );
    }
    if (leastV - ledsV < leastDropShare * leastV) {
      const least = (ledsV / (1 - warnDropShare)).toFixed(1);
      const message = `${leastV.toFixed(1)} V leave too little for the resistor of ${led.name} (${ledsV.toFixed(1)} V over the LEDs)`;
      const remedy = `Use ${least} V (direct) or more, fewer LEDs in series, or a lower forward voltage.`;
      return refused('SUPPLY_TOO_LOW', message, remedy);
    }
    if (ratingOf((designV - ledsV) * currentMa) === null) {
      const message = `the resistor of ${led.name} would take ${(((designV - ledsV) * currentMa) / 1000).toFixed(1)} W`;
      return refused('RESISTOR_TOO_HOT', message, 'Put more LEDs in series, or use a lower supply or current.');
    }
  }
  return null;
}
