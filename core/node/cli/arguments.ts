import { AppError } from '../../base/errors';

/** What a command accepts: options that take a value, and flags that do not. */
export interface ArgumentRules {
  readonly command: string;
  readonly values: readonly string[];
  readonly flags: readonly string[];
  /** Options with a value that may be given several times. */
  readonly lists?: readonly string[];
}

export interface GivenArguments {
  readonly values: ReadonlyMap<string, string>;
  readonly flags: ReadonlySet<string>;
  /** Values of each option that may be repeated, in the order given. */
  readonly lists: ReadonlyMap<string, readonly string[]>;
  /** Everything that is no option, in the order given. */
  readonly files: readonly string[];
}

/** A usage error: exit code 2. */
export function usageError(message: string, remedy: string, code = 'USAGE'): AppError {
  return new AppError('usage', code, message, remedy);
}

/** Number of single-letter changes between two words (Levenshtein distance). */
export function letterDistance(a: string, b: string): number {
  let previous = Array.from({ length: b.length + 1 }, (_, i) => i);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const change = a[i - 1] === b[j - 1] ? 0 : 1;
      row.push(Math.min(row[j - 1] + 1, previous[j] + 1, previous[j - 1] + change));
    }
    previous = row;
  }
  return previous[b.length];
}

/** The known word nearest to a mistyped one, or null when none is near. */
export function nearestWord(word: string, known: readonly string[]): string | null {
  const [best] = known.map((other) => [letterDistance(word, other), other] as const).sort((a, b) => a[0] - b[0]);
  return best && best[0] <= Math.max(1, Math.floor(word.length / 3)) ? best[1] : null;
}

function unknownOption(option: string, rules: ArgumentRules): AppError {
  const near = nearestWord(option.replace(/^-+/, ''), [...rules.values, ...rules.flags, ...(rules.lists ?? [])]);
  const hint = near === null ? `'evendial help ${rules.command}' lists the options.` : `Did you mean --${near}?`;
  const file = option.startsWith('--') ? '' : ` A file of this name is written ./${option} or after --.`;
  return usageError(`unknown option ${option}`, hint + file, 'OPTION_UNKNOWN');
}

/**
 * Sorts a command line into options and files. `--name value` and `--name=value` are alike; `--` ends the options;
 * a value may start with one dash (a negative number), never with two.
 *
 * @throws AppError OPTION_UNKNOWN, OPTION_WITHOUT_VALUE, OPTION_REPEATED
 * @rule CL1
 */
export function readArguments(given: readonly string[], rules: ArgumentRules): GivenArguments {
  const values = new Map<string, string>();
  const flags = new Set<string>();
  const lists = new Map<string, string[]>();
  const files: string[] = [];
  for (let i = 0; i < given.length; i++) {
    const word = given[i];
    if (word === '--') {
      files.push(...given.slice(i + 1));
      break;
    }
    if (!word.startsWith('-') || word === '-') {
      files.push(word);
      continue;
    }
    if (!word.startsWith('--')) throw unknownOption(word, rules);
    const equals = word.indexOf('=');
    const option = equals < 0 ? word.slice(2) : word.slice(2, equals);
    if (values.has(option)) throw usageError(`--${option} is given twice`, 'Give it once.', 'OPTION_REPEATED');
    if (rules.flags.includes(option)) {
      if (equals >= 0) throw usageError(`--${option} takes no value`, `Write --${option} alone.`, 'OPTION_VALUE');
      flags.add(option);
    } else if (rules.values.includes(option) || rules.lists?.includes(option)) {
      const value = equals < 0 ? given[++i] : word.slice(equals + 1);
      if (value === undefined || (equals < 0 && value.startsWith('--'))) {
        const remedy = `'evendial help ${rules.command}' shows an example.`;
        throw usageError(`--${option} needs a value`, remedy, 'OPTION_WITHOUT_VALUE');
      }
      if (rules.lists?.includes(option)) lists.set(option, [...(lists.get(option) ?? []), value]);
      else values.set(option, value);
    } else {
      throw unknownOption(`--${option}`, rules);
    }
  }
  return { values, flags, lists, files };
}
