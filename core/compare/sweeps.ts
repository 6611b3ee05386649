import type { SeriesTrial } from '../contract/series';

/** What of a lamp can be swept, in the words of a table. */
const coordinates = ['x mm', 'y mm', 'z mm', 'tilt x °', 'tilt y °', 'current mA'] as const;
export type LampCoordinate = (typeof coordinates)[number];

export interface SweepStep {
  readonly value: number;
  /** Names of the trials at this value: more than one when it was tried again. */
  readonly trials: readonly string[];
}

/** Trials that differ in nothing of their lamps but one coordinate of one lamp. */
export interface Sweep {
  readonly lamp: string;
  readonly coordinate: LampCoordinate;
  /** By rising value, two or more. */
  readonly steps: readonly SweepStep[];
}

type Lamp = NonNullable<SeriesTrial['lamps']>[number];

function valueOf({ positionMm, tiltDeg, currentMa }: Lamp, coordinate: LampCoordinate): number | undefined {
  return [...(positionMm ?? Array<undefined>(3)), ...(tiltDeg ?? Array<undefined>(2)), currentMa][
    coordinates.indexOf(coordinate)
  ];
}

/** All that is stated of a trial's light but one coordinate of one lamp. */
function restOf({ light, lamps = [] }: SeriesTrial, lamp: string, left: LampCoordinate): string {
  const described = lamps.map((one) => [
    one.name,
    one.on ?? true,
    ...coordinates.map((coordinate) =>
      one.name === lamp && coordinate === left ? null : (valueOf(one, coordinate) ?? null),
    ),
  ]);
  described.sort(([a], [b]) => (String(a) < String(b) ? -1 : 1));
  return JSON.stringify([light ?? 'unknown', described]);
}

function stepsOf(trials: readonly { readonly name: string; readonly value: number }[]): SweepStep[] {
  const values = [...new Set(trials.map(({ value }) => value))].sort((a, b) => a - b);
  return values.map((value) => ({
    value,
    trials: trials.filter((one) => one.value === value).map(({ name }) => name),
  }));
}

/**
 * Finds the sweeps of a series: for each lamp and coordinate, trials of the same light that are otherwise alike.
 *
 * @returns in the order in which the lamps are first named; empty when no two trials differ in one coordinate alone
 * @source our own choice: with two things changed at once, neither can be blamed
 * @rule PR6
 */
export function sweepsOf(trials: readonly SeriesTrial[]): Sweep[] {
  const lampNames = [...new Set(trials.flatMap(({ lamps = [] }) => lamps.map(({ name }) => name)))];
  return lampNames.flatMap((lamp) =>
    coordinates.flatMap((coordinate) => {
      const alike = new Map<string, { name: string; value: number }[]>();
      for (const trial of trials) {
        const own = trial.lamps?.find(({ name }) => name === lamp);
        const value = own && valueOf(own, coordinate);
        if (value === undefined) continue;
        const rest = restOf(trial, lamp, coordinate);
        alike.set(rest, [...(alike.get(rest) ?? []), { name: trial.name, value }]);
      }
      return [...alike.values()]
        .map((group): Sweep => ({ lamp, coordinate, steps: stepsOf(group) }))
        .filter(({ steps }) => steps.length > 1);
    }),
  );
}
