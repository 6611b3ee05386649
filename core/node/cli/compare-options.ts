import { readArguments, usageError, type GivenArguments } from './arguments';
import { readBookFolder } from './book-option';
import type { Shell } from './shell';

/** Where the trials come from, as the user wrote it. */
export type CompareSource =
  | { readonly kind: 'series'; readonly file: string }
  | { readonly kind: 'unit'; readonly called: string; readonly book: string };

/** What `compare` was asked for, before a file or a unit is opened. */
export interface CompareOptions {
  readonly source: CompareSource;
  readonly isJson: boolean;
  readonly strict: boolean;
  /** As the user wrote it; null without --maps. */
  readonly mapsFolder: string | null;
}

const rules = { command: 'compare', values: ['series', 'unit', 'book', 'maps'], flags: ['json', 'strict'] };

function sourceOf(given: GivenArguments, shell: Pick<Shell, 'folder'>): CompareSource {
  const [file, called] = [given.values.get('series'), given.values.get('unit')];
  if (file !== undefined && called !== undefined) throw usageError('--series and --unit together', 'Give one of them.');
  if (called) return { kind: 'unit', called, book: readBookFolder(given, shell) };
  if (given.values.has('book')) throw usageError('--book without --unit', 'Name the unit of the book with --unit.');
  if (file) return { kind: 'series', file };
  const remedy = "Write 'evendial compare --series FILE', or --unit UNIT.";
  throw usageError('no series file and no unit is named', remedy);
}

/**
 * Reads the command line of `evendial compare`.
 *
 * @param words what follows `compare`
 * @param shell where relative paths belong
 * @throws AppError of kind usage (exit code 2)
 * @rule CL1, CL20
 */
export function readCompareOptions(words: readonly string[], shell: Pick<Shell, 'folder'>): CompareOptions {
  const given = readArguments(words, rules);
  const { values, flags, files } = given;
  if (files.length > 0) {
    const message = `compare takes no photos (${JSON.stringify(files[0])})`;
    throw usageError(message, 'Name them in a series file and use --series FILE; evendial help series shows one.');
  }
  if (values.get('maps') === '') throw usageError('--maps names no folder', 'Name a folder.');
  return {
    source: sourceOf(given, shell),
    isJson: flags.has('json'),
    strict: flags.has('strict'),
    mapsFolder: values.get('maps') ?? null,
  };
}
