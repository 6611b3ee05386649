import { unitRecord, type UnitRecord } from '../contract/unit-record';
import { askedWrongly, listOfNames } from './book-errors';
import { readFieldPath, type FieldStep } from './field-path';
import { readFieldValue } from './field-value';
import { problemsInRecord } from './read-record';
import { recordSchema, type SchemaNode } from './record-schema';
import { renamed } from './rename';

type Item = Readonly<Record<string, unknown>>;

/** Kept by the program; of a photo only what it means can be set. */
const keptByProgram = ['format', 'version', 'id', 'revision', 'savedAt', 'undo', 'redo', 'restores', 'readings'];
const keptOfPhoto = ['sha256', 'ending', 'bytes', 'name'];

function unknownField(place: string, node: SchemaNode | null): Error {
  const known = Object.keys(node?.properties ?? {}).filter((key) => !keptByProgram.includes(key));
  const remedy =
    known.length > 0 ? `Known here: ${known.join(', ')}.` : "'evendial unit schema' prints all keys of a record.";
  return askedWrongly('FIELD_UNKNOWN', `${place} is no field that can be set`, remedy);
}

const isItem = (value: unknown): value is Item => typeof value === 'object' && value !== null && !Array.isArray(value);

/** Where an item of this name stands; of photos also by the beginning of their checksum. -1: nowhere. */
function indexOf(items: readonly unknown[], name: string): number {
  const named = items.findIndex((item) => isItem(item) && item['name'] === name);
  if (named >= 0) return named;
  const sums = items.map((item) => (isItem(item) ? String(item['sha256'] ?? '') : ''));
  const matching = sums.filter((sum) => name.length >= 6 && sum.startsWith(name));
  return new Set(matching).size === 1 ? sums.indexOf(matching[0]) : -1;
}

/** A list with one item changed; lamps, strings and parts that are not there yet are begun by their name. */
function setInList(list: unknown, name: string, rest: readonly FieldStep[], text: string, at: Walk): unknown {
  const items = Array.isArray(list) ? (list as unknown[]) : [];
  const index = indexOf(items, name);
  const node = at.node.items === false ? undefined : at.node.items;
  const place = `${at.place}[${name}]`;
  if (node?.properties?.['name'] === undefined) throw unknownField(place, null);
  if (index < 0 && ['windows', 'trials', 'photos'].includes(at.place)) {
    const names = items.map((item) => (isItem(item) ? String(item['name']) : ''));
    const remedy = `There: ${listOfNames(names)}. New ones come with 'evendial unit add-...'.`;
    throw askedWrongly('FIELD_UNKNOWN', `there is no ${place}`, remedy);
  }
  const value = setAt(index < 0 ? { name } : items[index], rest, text, { place, node });
  if (value === undefined) return items.filter((_, i) => i !== index);
  return index < 0 ? [...items, value] : items.map((item, i) => (i === index ? value : item));
}

interface Walk {
  readonly place: string;
  readonly node: SchemaNode;
}

/** The value at a place after the steps; undefined: to be left out. */
function setAt(value: unknown, steps: readonly FieldStep[], text: string, at: Walk): unknown {
  if (steps.length === 0) return text === '' ? undefined : readFieldValue(text, at.node, at.place);
  const [step, ...rest] = steps;
  if ('item' in step && at.node.type === 'array') return setInList(value, step.item, rest, text, at);
  const key = 'item' in step ? step.item : step.key;
  const open = at.node.additionalProperties;
  const node = at.node.properties?.[key] ?? (open === undefined || open === false ? undefined : open);
  const place = at.place === '' ? key : `${at.place}.${key}`;
  if (!node || (at.place === '' && keptByProgram.includes(key))) throw unknownField(place, at.node);
  if (/^photos\[[^\]]*\]$/.test(at.place) && keptOfPhoto.includes(key)) throw unknownField(place, null);
  const { [key]: old, ...others } = isItem(value) ? value : {};
  const inner = setAt(old, rest, text, { place, node });
  if (inner !== undefined) return { ...others, [key]: inner };
  // A group that has become empty is left out; an item keeps its name.
  return Object.keys(others).length === 0 && at.place !== '' ? undefined : others;
}

/**
 * A record with one field set as a person typed it; an empty text takes the field away. A new name of a window or a trial
 * is carried to everything that speaks of it.
 *
 * @param path as `trials[LEDs 8 mm behind].lamps[left].currentMa`
 * @throws AppError FIELD_UNKNOWN, VALUE_INVALID  with the place
 * @rule BK12
 */
export function setField(record: UnitRecord, path: string, text: string): UnitRecord {
  const steps = readFieldPath(path);
  const changed = setAt(record, steps, text, { place: '', node: recordSchema() });
  const [list, item, name] = steps;
  const isRename = steps.length === 3 && 'item' in item && 'key' in name && name.key === 'name' && 'key' in list;
  const edited = isRename && text !== '' ? renamed(changed as UnitRecord, list.key, item.item, text) : changed;
  const problems = problemsInRecord(edited);
  if (problems.length > 0) {
    throw askedWrongly('VALUE_INVALID', problems.slice(0, 3).join('; '), 'Nothing was changed. Correct the value.');
  }
  return unitRecord.parse(edited);
}
