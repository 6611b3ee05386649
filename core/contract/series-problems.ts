import type { SeriesFile } from './series';

/** One disagreement between parts of a series file that are each well formed. */
export interface SeriesProblem {
  readonly path: readonly (string | number)[];
  readonly message: string;
}

function repeatedNames(list: 'windows' | 'trials', items: readonly { readonly name: string }[]): SeriesProblem[] {
  const first = new Map<string, number>();
  return items.flatMap((item, i) => {
    const earlier = first.get(item.name);
    if (earlier !== undefined) {
      const message = `the name ${JSON.stringify(item.name)} is taken by ${list}[${earlier}]; give each its own`;
      return [{ path: [list, i, 'name'], message }];
    }
    first.set(item.name, i);
    return [];
  });
}

function unknownWindows(
  path: readonly (string | number)[],
  placed: Readonly<Record<string, unknown>> | undefined,
  windows: readonly string[],
): SeriesProblem[] {
  const known = windows.map((name) => JSON.stringify(name)).join(', ');
  return Object.keys(placed ?? {})
    .filter((name) => !windows.includes(name))
    .map((name) => ({
      path: [...path, 'corners', name],
      message: `there is no window of this name; the windows are ${known}`,
    }));
}

/**
 * Disagreements inside a series file: names used twice, corners or a reference of a window that is not described, nothing to measure.
 *
 * @returns an empty list when there is none
 * @rule SE2
 */
export function problemsOf(file: SeriesFile): SeriesProblem[] {
  const windows = file.windows.map((window) => window.name);
  const trials = file.trials ?? [];
  const problems = [...repeatedNames('windows', file.windows), ...repeatedNames('trials', trials)];
  if (file.reference) {
    problems.push(...unknownWindows(['reference'], file.reference.corners, windows));
    const only = file.reference.window;
    if (only !== undefined && !windows.includes(only)) {
      const known = windows.map((name) => JSON.stringify(name)).join(', ');
      const message = `there is no window of this name; the windows are ${known}`;
      problems.push({ path: ['reference', 'window'], message });
    }
  }
  trials.forEach((trial, i) => problems.push(...unknownWindows(['trials', i], trial.corners, windows)));
  if (trials.length === 0 && !file.reference) {
    problems.push({ path: ['trials'], message: 'there is nothing to measure: name a trial or a reference' });
  }
  return problems;
}

const typeNames: Readonly<Record<string, string>> = {
  array: 'a list in [ ]',
  tuple: 'a list in [ ]',
  object: 'an object in { }',
  record: 'an object in { }',
  string: 'a text in quotation marks',
  number: 'a number',
  boolean: 'true or false',
};

/** `must be a list in [ ]`: what a place of another type has to hold. @rule SE1 */
export function wrongTypeWords(expected: string): string {
  return `must be ${typeNames[expected] ?? expected}`;
}

/** What stands at a place of a document; undefined where there is none. */
export function valueAt(document: unknown, path: readonly PropertyKey[]): unknown {
  return path.reduce<unknown>(
    (value, step) =>
      typeof value === 'object' && value !== null && Object.hasOwn(value, step)
        ? (value as Readonly<Record<PropertyKey, unknown>>)[step]
        : undefined,
    document,
  );
}

/** `must be one of "dark", "lit", not "drak"`: the choice, and what was written. @rule SE1 */
export function wrongChoiceWords(allowed: readonly unknown[], given: unknown): string {
  const choice = allowed.map((value) => JSON.stringify(value)).join(', ');
  const written = given === undefined ? '' : `, not ${JSON.stringify(given).slice(0, 60)}`;
  return `must be ${allowed.length > 1 ? 'one of ' : ''}${choice}${written}`;
}
