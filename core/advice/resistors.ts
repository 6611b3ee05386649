/** Preferred values of IEC 60063 that resistors are sold in. */
export const resistorSeries = ['E12', 'E24', 'E96'] as const;
export type ResistorSeries = (typeof resistorSeries)[number];

const e24 = [10, 11, 12, 13, 15, 16, 18, 20, 22, 24, 27, 30, 33, 36, 39, 43, 47, 51, 56, 62, 68, 75, 82, 91];

/** Values of one decade, rising. @source IEC 60063:2015; E96 = 100 times 10^(i/96), rounded */
const decadeOf: Readonly<Record<ResistorSeries, readonly number[]>> = {
  E12: e24.filter((_, i) => i % 2 === 0),
  E24: e24,
  E96: Array.from({ length: 96 }, (_, i) => Math.round(100 * 10 ** (i / 96))),
};

/** Relative slack against rounding. */
const slack = 1e-9;

/** Values of a series around a resistance, rising. */
function valuesAround(ohm: number, series: ResistorSeries): number[] {
  const decade = decadeOf[series];
  const exponent = Math.floor(Math.log10(ohm));
  return [exponent - 1, exponent, exponent + 1].flatMap((power) =>
    // Parsed as decimal text, so that 4.7 is 4.7 and not 47 times a rounded 0.1.
    decade.map((value) => Number(`${value}e${power - Math.round(Math.log10(decade[0]))}`)),
  );
}

function assertResistance(ohm: number): void {
  if (!(ohm > 0) || !Number.isFinite(ohm)) throw new RangeError(`no resistor of ${ohm} ohm`);
}

/**
 * The least preferred value that is not below a resistance, ohm.
 *
 * @throws RangeError unless the resistance is above 0
 * @source IEC 60063:2015
 * @rule LA8
 */
export function nextHigherOhm(ohm: number, series: ResistorSeries): number {
  assertResistance(ohm);
  return valuesAround(ohm, series).find((value) => value >= ohm * (1 - slack))!;
}

/**
 * The preferred value nearest to a resistance by the logarithm of their ratio, ohm; the next higher one where the nearest would
 * let more than the maximum current through.
 *
 * @param leastOhm  resistance at the maximum current, 0 or more
 * @throws RangeError unless the resistance is above 0
 * @source IEC 60063:2015; the currents of a mix go by ratios, hence the logarithm: our own choice
 * @rule LA8
 */
export function nearestOhm(ohm: number, series: ResistorSeries, leastOhm = 0): number {
  assertResistance(ohm);
  const distance = (value: number): number => Math.abs(Math.log(value / ohm));
  const nearest = valuesAround(ohm, series).reduce((best, value) => (distance(value) < distance(best) ? value : best));
  return nearest >= leastOhm * (1 - slack) ? nearest : nextHigherOhm(Math.max(ohm, leastOhm), series);
}

/** Ratings of resistors with leads, mW. @source common practice: 1/8, 1/4, 1/2, 1, 2, 3 and 5 W */
const ratingsMw = [125, 250, 500, 1000, 2000, 3000, 5000];

/**
 * The smallest common rating of at least twice the power, mW; null when there is none up to 5 W.
 *
 * @source twice the power: common practice for long life in closed, warm cases
 * @rule LA9
 */
export function ratingOf(powerMw: number): number | null {
  return ratingsMw.find((rating) => rating >= 2 * powerMw * (1 - slack)) ?? null;
}
