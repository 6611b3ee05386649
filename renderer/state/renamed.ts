import type { UnitEdit, UnitId } from '../../core/contract/book-verbs';
import type { UnitRecord } from '../../core/contract/unit-record';
import type { AskedEdits } from './book-state';
import type { Selection } from './selection';

const lists = ['windows', 'trials', 'parts'] as const;

/** A window, trial or part of a unit that has another name now. */
export interface Renamed {
  readonly list: (typeof lists)[number];
  readonly from: string;
  readonly to: string;
}

/** What goes by the names of a unit, its windows and trials, and follows them. */
export interface FollowsNames {
  /** A window, trial or part has another name. */
  rename(unit: UnitId, renamed: Renamed): void;
  /** What the unit is called, now or still. */
  callUnit(unit: UnitId, unitName: string): void;
}

const nameField = /^(windows|trials|parts)\[("(?:[^"\\]|\\.)*")\]\.name$/;

/** The new names that an edit gives. */
export function namesGiven(edits: readonly UnitEdit[]): Renamed[] {
  return edits.flatMap((edit) => {
    const [, list, quoted] = (edit.kind === 'set' && nameField.exec(edit.field)) || [];
    const known = lists.find((one) => one === list);
    return known && edit.kind === 'set' ? [{ list: known, from: JSON.parse(quoted) as string, to: edit.text }] : [];
  });
}

/** The names that differ between two revisions of a unit, where nothing was added or removed: undo gives old names back. */
export function namesChanged(before: UnitRecord, after: UnitRecord): Renamed[] {
  return lists.flatMap((list) => {
    const [old, now] = [before, after].map((record) => record[list].map(({ name }) => name));
    if (old.length !== now.length) return [];
    const pairs = old.map((from, i): Renamed => ({ list, from, to: now[i] }));
    return pairs.filter(({ from, to }) => !now.includes(from) && !old.includes(to));
  });
}

/** A name as it is now, in a list. */
const nameNow = (list: Renamed['list'], name: string, renamed: Renamed): string =>
  renamed.list === list && renamed.from === name ? renamed.to : name;

export const trialNow = <Name extends string | null>(name: Name, renamed: Renamed): Name | string =>
  name === null ? name : nameNow('trials', name, renamed);

/** A field's path as it is now. */
export function fieldNow(field: string, { list, from, to }: Renamed): string {
  const old = `${list}[${JSON.stringify(from)}]`;
  return field.startsWith(old) ? `${list}[${JSON.stringify(to)}]${field.slice(old.length)}` : field;
}

/** What a field is set to, where that is names of windows or of a trial. */
function textNow({ field, text }: { readonly field: string; readonly text: string }, renamed: Renamed): string {
  if (/^trials\[.*\]\.planned\.from$/s.test(field)) return nameNow('trials', text, renamed);
  if (/^trials\[.*\]\.planned\.window$/s.test(field)) return nameNow('windows', text, renamed);
  if (text === '' || !/^trials\[.*\]\.windows$/s.test(field)) return text;
  const windows = JSON.parse(text) as readonly string[];
  return JSON.stringify(windows.map((name) => nameNow('windows', name, renamed)));
}

function editNow(edit: UnitEdit, renamed: Renamed): UnitEdit {
  switch (edit.kind) {
    case 'set':
      return { ...edit, field: fieldNow(edit.field, renamed), text: textNow(edit, renamed) };
    case 'add-window':
      return edit;
    case 'add-trial': {
      const mirrorTo = edit.mirrorTo === null ? null : nameNow('windows', edit.mirrorTo, renamed);
      return { ...edit, like: trialNow(edit.like, renamed), mirrorTo };
    }
    case 'choose-trial':
      return { ...edit, trial: trialNow(edit.trial, renamed) };
    case 'remove':
      return { ...edit, name: nameNow(edit.list, edit.name, renamed) };
    case 'remove-photo':
      return { ...edit, trial: trialNow(edit.trial, renamed) };
  }
}

/** An edit that was asked for under the old name, as it has to be asked for now. */
export const askedNow = (asked: AskedEdits, renamed: Renamed): AskedEdits => ({
  ...asked,
  edits: asked.edits.map((edit) => editNow(edit, renamed)),
});

/** The same place under its new name. */
export function placeNow<Place extends { readonly window: string; readonly trial: string | null }>(
  place: Place,
  renamed: Renamed,
): Place {
  return { ...place, window: nameNow('windows', place.window, renamed), trial: trialNow(place.trial, renamed) };
}

export function selectionNow(selection: Selection, renamed: Renamed): Selection {
  switch (selection.kind) {
    case 'unit':
      return selection;
    case 'window':
      return { ...selection, window: nameNow('windows', selection.window, renamed) };
    case 'trial':
    case 'photo':
      return placeNow(selection, renamed);
  }
}
