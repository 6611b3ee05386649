/**
 * Exponents of a filament lamp's laws over V / rated V.
 *
 * @source Fink & Beaty, Standard Handbook for Electrical Engineers, 11th ed. 1978, p. 22-8, as carried by an encyclopedia's
 * article on lamp rerating; the lower value of the colour temperature from memory
 */
export const filamentExponents = {
  current: 0.55,
  power: 1.6,
  flux: { low: 3.4, high: 3.5 },
  life: { low: -16, high: -12 },
  colourTemperature: { low: 0.34, typical: 0.42 },
} as const;

export interface ReratedLamp {
  /** Colour temperature to be expected, K, and how far it may lie from it. */
  readonly cctK: number;
  readonly lowK: number;
  readonly highK: number;
  readonly fluxRatio: number;
  /** The laws hold from 0.9 to 1.1 of the rated volts; outside they are drawn out. */
  readonly isExtrapolated: boolean;
}

/** The laws are good between these shares of the rated volts. */
const holdFrom = 0.9;
const holdTo = 1.1;

/**
 * Colour temperature of a filament lamp away from its rated volts: rated K times (V / rated V)^0.42, 0.34 as the other end.
 *
 * @param ratedK  colour temperature at the rated volts, K, above 0
 * @throws RangeError unless all three are above 0
 * @source see `filamentExponents`
 * @rule LA11
 */
export function reratedLamp(ratedK: number, volts: number, ratedVolts: number): ReratedLamp {
  const ratio = volts / ratedVolts;
  if (!(ratio > 0) || !Number.isFinite(ratio) || !(ratedK > 0))
    throw new RangeError(`no lamp: ${ratedK} K, ${volts} of ${ratedVolts} V`);
  const { low, typical } = filamentExponents.colourTemperature;
  const both = [ratedK * ratio ** typical, ratedK * ratio ** low];
  return {
    cctK: both[0],
    lowK: Math.min(...both),
    highK: Math.max(...both),
    fluxRatio: ratio ** filamentExponents.flux.high,
    isExtrapolated: ratio < holdFrom || ratio > holdTo,
  };
}
