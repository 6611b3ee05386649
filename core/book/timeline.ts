import { placeOf } from '../contract/series';
import type { UnitRecord } from '../contract/unit-record';

/** One place of a record that a revision changed; `before` or `after` is left out where there was nothing. */
export interface FieldChange {
  readonly place: string;
  readonly before?: unknown;
  readonly after?: unknown;
}

export interface TimelineEntry {
  readonly revision: number;
  readonly savedAt: string;
  /** The revision whose content it brought back. */
  readonly restores?: number;
  readonly changes: readonly FieldChange[];
}

/** What every revision changes by being one. */
const head = ['format', 'version', 'id', 'revision', 'savedAt', 'undo', 'redo', 'restores'];

type Item = Readonly<Record<string, unknown>>;
const isObject = (value: unknown): value is Item =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** What an item of a list is known by, whatever its place in the list. */
function keyOf(item: unknown): string | null {
  if (!isObject(item)) return null;
  if (typeof item['sha256'] === 'string')
    return [item['name'], item['role'], item['trial']].filter((word) => word !== undefined).join(', ');
  if (typeof item['photo'] === 'string') return `${String(item['trial'] ?? 'reference')}, ${String(item['window'])}`;
  return typeof item['name'] === 'string' ? item['name'] : null;
}

/** A list of items with keys as an object by these keys; null when it is another list. */
function byKey(value: unknown): Item | null {
  if (!Array.isArray(value)) return null;
  const keys = value.map(keyOf);
  if (keys.some((key) => key === null) || new Set(keys).size < keys.length) return null;
  return Object.fromEntries(value.map((item: unknown, i) => [keys[i] ?? '', item]));
}

function changesBetween(before: unknown, after: unknown, path: readonly string[]): FieldChange[] {
  if (JSON.stringify(before) === JSON.stringify(after)) return [];
  const [from, to] = [byKey(before) ?? before, byKey(after) ?? after];
  if (!isObject(from) || !isObject(to)) {
    const place = placeOf(path);
    return [{ place, ...(before === undefined ? {} : { before }), ...(after === undefined ? {} : { after }) }];
  }
  const keys = [...new Set([...Object.keys(from), ...Object.keys(to)])];
  return keys.flatMap((key) => changesBetween(from[key], to[key], [...path, key]));
}

/** What differs between two revisions, place by place; items of a list are told by their names. @rule BK7 */
export function changesOf(before: UnitRecord, after: UnitRecord): FieldChange[] {
  const content = (record: UnitRecord): Item =>
    Object.fromEntries(Object.entries(record).filter(([key]) => !head.includes(key)));
  return changesBetween(content(before), content(after), []);
}

/**
 * What happened to a unit, oldest first: each revision with its differences from the one before it.
 *
 * @param revisions  in rising order
 * @rule BK7
 */
export function timelineOf(revisions: readonly UnitRecord[]): TimelineEntry[] {
  return revisions.map((record, i) => ({
    revision: record.revision,
    savedAt: record.savedAt,
    ...(record.restores === undefined ? {} : { restores: record.restores }),
    changes: i === 0 ? [] : changesOf(revisions[i - 1], record),
  }));
}
