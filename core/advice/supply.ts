/** What feeds the lamps. */
export type Supply =
  | { readonly kind: 'dc'; readonly volts: number; readonly voltsWithoutLamp: number | null }
  | {
      readonly kind: 'ac';
      /** Effective volts with the old lamp in, and with it out. */
      readonly volts: number;
      readonly voltsWithoutLamp: number | null;
      readonly hz: number;
      readonly capacitorUf: number;
    };

/** Drop of one diode of a silicon bridge, V. @source common practice */
const diodeV = 0.7;

/**
 * Direct volts behind a bridge and capacitor: sqrt 2 times the effective volts, less two diodes.
 *
 * @source common practice
 * @rule LA10
 */
export function rectifiedVolts(effectiveVolts: number): number {
  return Math.SQRT2 * effectiveVolts - 2 * diodeV;
}

/**
 * Ripple behind a bridge, V peak to peak: I / (2 f C).
 *
 * @source common practice: the capacitor alone feeds the lamps for half a period
 * @rule LA10
 */
export function rippleVolts(currentMa: number, hz: number, capacitorUf: number): number {
  return (currentMa * 1e-3) / (2 * hz * capacitorUf * 1e-6);
}

/**
 * Direct volts that resistors are made for, and the least that they get: with the lamp out a winding rises, and LEDs take so little
 * that it stays there.
 *
 * @source our own choice: the higher of both readings decides the resistor, the lower one whether there is volts enough
 * @rule LA10
 */
export function directVolts(supply: Supply): { readonly design: number; readonly least: number } {
  const direct = (volts: number): number => (supply.kind === 'dc' ? volts : rectifiedVolts(volts));
  const both = [supply.volts, supply.voltsWithoutLamp ?? supply.volts].map(direct);
  return { design: Math.max(...both), least: Math.min(...both) };
}
