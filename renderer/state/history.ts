import type { PhotoId } from '../../core/contract/bench';
import type { ReadingSettings } from './bench-state';

/** One photo's settings before and after an edit. */
export interface Change {
  readonly photo: PhotoId;
  readonly before: ReadingSettings;
  readonly after: ReadingSettings;
}

/** One edit, of one photo or of several at once, so that it can be taken back. */
export interface Edit {
  /** What was changed, in words: `corner 2 moved`. */
  readonly what: string;
  /** One or more; the first one's photo is shown when the edit is taken back. */
  readonly changes: readonly Change[];
}

export interface History {
  readonly done: readonly Edit[];
  readonly undone: readonly Edit[];
}

export const emptyHistory: History = { done: [], undone: [] };

/** More edits than these are forgotten, the oldest first. */
const mostEdits = 200;

export function withEdit(history: History, edit: Edit): History {
  return { done: [...history.done, edit].slice(-mostEdits), undone: [] };
}

/** The edit to take back and the history without it; null when there is none. */
export function undone(history: History): { readonly edit: Edit; readonly history: History } | null {
  const edit = history.done.at(-1);
  if (!edit) return null;
  return { edit, history: { done: history.done.slice(0, -1), undone: [...history.undone, edit] } };
}

/** The edit to do again and the history with it; null when there is none. */
export function redone(history: History): { readonly edit: Edit; readonly history: History } | null {
  const edit = history.undone.at(-1);
  if (!edit) return null;
  return { edit, history: { done: [...history.done, edit], undone: history.undone.slice(0, -1) } };
}
