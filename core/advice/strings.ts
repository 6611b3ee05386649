import { nearestOhm, ratingOf, type ResistorSeries } from './resistors';

/** One string: LEDs in series with one resistor of their own. */
export interface StringPlan {
  readonly currentMa: number;
  readonly resistorOhm: number;
  readonly nearestOhm: number;
  readonly currentWithNearestMa: number;
  /** At a supply 10 % higher. */
  readonly currentAtSupplyPlus10Ma: number;
  /** Power in the resistor that is bought. */
  readonly resistorMw: number;
  readonly ratedMw: number | null;
  /** Share of the supply's volts that the resistor takes, 0..1. */
  readonly dropShare: number;
}

export interface StringWish {
  readonly supplyV: number;
  /** Volts over all LEDs of the string. */
  readonly ledsV: number;
  readonly currentMa: number;
  readonly maxMa: number;
  readonly series: ResistorSeries;
}

/**
 * The resistor of one string: (supply - LEDs) / current, the preferred value, and what it then does.
 *
 * The LEDs' volts are taken as the same at every current. Assumes that the checks of `refusalOf` have passed.
 *
 * @throws RangeError when the supply is not above the LEDs' volts or the current not above 0
 * @source Ohm's law; P = I^2 R
 * @rule LA8, LA9
 */
export function planString({ supplyV, ledsV, currentMa, maxMa, series }: StringWish): StringPlan {
  const dropV = supplyV - ledsV;
  const ohmAt = (mA: number): number => (dropV / mA) * 1000;
  const resistorOhm = ohmAt(currentMa);
  const nearest = nearestOhm(resistorOhm, series, ohmAt(maxMa));
  const currentWithNearestMa = (dropV / nearest) * 1000;
  const resistorMw = (currentWithNearestMa * currentWithNearestMa * nearest) / 1000;
  return {
    currentMa,
    resistorOhm,
    nearestOhm: nearest,
    currentWithNearestMa,
    currentAtSupplyPlus10Ma: ((1.1 * supplyV - ledsV) / nearest) * 1000,
    resistorMw,
    ratedMw: ratingOf(resistorMw),
    dropShare: dropV / supplyV,
  };
}
