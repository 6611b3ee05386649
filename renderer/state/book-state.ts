import type { BenchError } from '../../core/contract/bench';
import type { BookEntry, UnitEdit, UnitId } from '../../core/contract/book-verbs';
import type { UnitRecord } from '../../core/contract/unit-record';
import type { Selection } from './selection';

/** Edits that belong together: one revision, or none. */
export interface AskedEdits {
  readonly unit: UnitId;
  /** Of the unit, for words about it after the page was loaded again. */
  readonly unitName: string;
  /** What was done, in words: `lamp left moved`. */
  readonly what: string;
  readonly edits: readonly UnitEdit[];
}

/** Whether everything that was done stands in the book. */
export type Saving =
  | { readonly kind: 'saved' }
  | { readonly kind: 'saving' }
  /** What could not be saved is kept in the page, and is offered again. */
  | { readonly kind: 'not-saved'; readonly error: BenchError };

export interface BookState {
  /** null until the book was read for the first time. */
  readonly entries: readonly BookEntry[] | null;
  readonly search: string;
  readonly readOnly: string | null;
  /** Why the book could not be read. */
  readonly listError: BenchError | null;
  /** The unit that was opened last. */
  readonly record: UnitRecord | null;
  readonly recordError: BenchError | null;
  readonly selected: Selection;
  readonly saving: Saving;
  /** Not in the book yet, oldest first. */
  readonly unsaved: readonly AskedEdits[];
  /** What the host said to a value, by the field that it was meant for. */
  readonly refusedFields: ReadonlyMap<string, BenchError>;
  /** What the host said to an edit that was of no field. */
  readonly refused: BenchError | null;
  /** Edits that were kept the last time were lost. */
  readonly lost: BenchError | null;
}

export const emptyBook: BookState = {
  entries: null,
  search: '',
  readOnly: null,
  listError: null,
  record: null,
  recordError: null,
  selected: { kind: 'unit' },
  saving: { kind: 'saved' },
  unsaved: [],
  refusedFields: new Map(),
  refused: null,
  lost: null,
};

/** What was said of a value, without the key of the record that it begins with: the field stands beside it. */
export function wordsAtField({ message, remedy }: BenchError): string {
  const [, words = message] = /^(?:[\w.]+(?:\["?[^\]]*\])?)+: (.+)$/s.exec(message) ?? [];
  return `${words.replace(/\.?$/, '.')} ${remedy}`;
}

/** Whether the list says something new: it is asked for again and again while it is in view. */
export function sameEntries(a: readonly BookEntry[] | null, b: readonly BookEntry[]): boolean {
  const word = (entry: BookEntry): string =>
    'error' in entry ? `${entry.id} ${entry.error}` : `${entry.id} ${entry.revision}`;
  return a !== null && a.length === b.length && a.every((entry, i) => word(entry) === word(b[i]));
}

/** A field as it is about to be saved; undefined: as the record has it. */
export function unsavedText(unsaved: readonly AskedEdits[], unit: UnitId, field: string): string | undefined {
  const edits = unsaved.filter((asked) => asked.unit === unit).flatMap((asked) => asked.edits);
  const last = edits.filter((edit) => edit.kind === 'set' && edit.field === field).at(-1);
  return last?.kind === 'set' ? last.text : undefined;
}
