import { readArguments, usageError } from './arguments';

/** What `compare` was asked for, before the series file is opened. */
export interface CompareOptions {
  /** As the user wrote it. */
  readonly series: string;
  readonly isJson: boolean;
  readonly strict: boolean;
  /** As the user wrote it; null without --maps. */
  readonly mapsFolder: string | null;
}

const rules = { command: 'compare', values: ['series', 'maps'], flags: ['json', 'strict'] };

/**
 * Reads the command line of `evendial compare`.
 *
 * @param words what follows `compare`
 * @throws AppError of kind usage (exit code 2)
 * @rule CL1, CL20
 */
export function readCompareOptions(words: readonly string[]): CompareOptions {
  const { values, flags, files } = readArguments(words, rules);
  if (files.length > 0) {
    const message = `compare takes no photos (${JSON.stringify(files[0])})`;
    throw usageError(message, 'Name them in a series file and use --series FILE; evendial help series shows one.');
  }
  const series = values.get('series');
  if (series === undefined || series === '') {
    throw usageError('no series file is named', "Write 'evendial compare --series FILE'.");
  }
  if (values.get('maps') === '') throw usageError('--maps names no folder', 'Name a folder.');
  return { series, isJson: flags.has('json'), strict: flags.has('strict'), mapsFolder: values.get('maps') ?? null };
}
