import type { UnitRecord } from '../contract/unit-record';

/** A disagreement between parts of a record that are each well formed. */
export interface RecordProblem {
  readonly path: readonly (string | number)[];
  readonly message: string;
}

const repeated = (path: readonly (string | number)[], items: readonly { readonly name: string }[]): RecordProblem[] =>
  items.flatMap(({ name }, i) => {
    const first = items.findIndex((other) => other.name === name);
    if (first === i) return [];
    const message = `the name ${JSON.stringify(name)} is taken by ${String(path.at(-1))}[${first}]; give each its own`;
    return [{ path: [...path, i, 'name'], message }];
  });

function unknownName(
  path: readonly (string | number)[],
  given: string | null | undefined,
  known: readonly string[],
  what: 'window' | 'trial' | 'lamp',
): RecordProblem[] {
  if (given === undefined || given === null || known.includes(given)) return [];
  return [{ path, message: `there is no ${what} ${JSON.stringify(given)}` }];
}

function trialProblems(trial: UnitRecord['trials'][number], i: number, windows: readonly string[]): RecordProblem[] {
  const path = ['trials', i];
  const lamps = trial.lamps ?? [];
  const strings = trial.strings ?? [];
  const lampNames = lamps.map(({ name }) => name);
  return [
    ...repeated([...path, 'lamps'], lamps),
    ...repeated([...path, 'strings'], strings),
    ...(trial.windows ?? []).flatMap((name, k) => unknownName([...path, 'windows', k], name, windows, 'window')),
    ...strings.flatMap((one, k) =>
      (one.lamps ?? []).flatMap((name, m) => unknownName([...path, 'strings', k, 'lamps', m], name, lampNames, 'lamp')),
    ),
  ];
}

/**
 * Disagreements inside a record: names used twice, photos, readings or a choice of trials and windows that are not there.
 *
 * @returns an empty list when there is none
 * @rule BK2
 */
export function recordProblems(record: UnitRecord): RecordProblem[] {
  const windows = record.windows.map(({ name }) => name);
  const trials = record.trials.map(({ name }) => name);
  return [
    ...repeated(['windows'], record.windows),
    ...repeated(['trials'], record.trials),
    ...repeated(['parts'], record.parts),
    ...record.trials.flatMap((trial, i) => trialProblems(trial, i, windows)),
    ...record.photos.flatMap((photo, i) => [
      ...unknownName(['photos', i, 'trial'], photo.trial, trials, 'trial'),
      ...(photo.role === 'trial' && photo.trial === undefined
        ? [{ path: ['photos', i, 'trial'], message: 'is missing: which trial does it show?' }]
        : []),
      ...Object.keys(photo.corners ?? {}).flatMap((name) =>
        unknownName(['photos', i, 'corners', name], name, windows, 'window'),
      ),
    ]),
    ...record.readings.flatMap((reading, i) => [
      ...unknownName(['readings', i, 'trial'], reading.trial, trials, 'trial'),
      ...unknownName(['readings', i, 'window'], reading.window, windows, 'window'),
    ]),
    ...unknownName(['chosen', 'trial'], record.chosen?.trial, trials, 'trial'),
  ];
}
