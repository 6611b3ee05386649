import type { UnitRevision } from '../../../core/contract/book-verbs';
import type { Figure } from '../../../core/contract/figure';
import { shortFigure } from '../../../core/display/figure-text';
import { textOfValue } from './field-path';
import { fieldsByKeys, type RecordField } from './fields';

type Change = UnitRevision['changes'][number];
type Item = Readonly<Record<string, unknown>>;

const isItem = (value: unknown): value is Item => typeof value === 'object' && value !== null && !Array.isArray(value);

/** The steps of a place as the time line names it: `trials["Bare, 8 mm"].lamps.left` has four. */
export function stepsOf(place: string): string[] {
  const steps: string[] = [];
  for (const [, key, quoted] of place.matchAll(/\.?([\p{L}\p{N}_$]+)|\[("(?:[^"\\]|\\.)*"|\d+)\]/gu)) {
    steps.push(key ?? String(JSON.parse(quoted)));
  }
  return steps;
}

/** A new or vanished group is as many changes as it has fields; items of lists stay whole. */
function leavesOf(change: Change): Change[] {
  const { place, before, after } = change;
  const steps = stepsOf(place);
  const group = before === undefined ? after : after === undefined ? before : undefined;
  if (!isItem(group) || isItemOfList(steps) || steps.length === 0) return [change];
  return Object.keys(group).flatMap((key) =>
    leavesOf({
      place: `${place}.${key}`,
      ...(before === undefined ? {} : { before: group[key] }),
      ...(after === undefined ? {} : { after: group[key] }),
    }),
  );
}

const lists = ['windows', 'trials', 'photos', 'readings', 'parts'];
const listsOfTrial = ['lamps', 'strings'];

function isItemOfList(steps: readonly string[]): boolean {
  if (steps.length === 2) return lists.includes(steps[0]);
  return steps.length === 4 && steps[0] === 'trials' && listsOfTrial.includes(steps[2]);
}

const itemWords: Readonly<Record<string, string>> = {
  windows: 'Window',
  trials: 'Trial',
  photos: 'Photo',
  parts: 'Part',
  lamps: 'lamp',
  strings: 'string',
};

/** What a field is called, without the names of items in its keys. */
function fieldOf(steps: readonly string[]): RecordField | undefined {
  const keys = lists.includes(steps[0])
    ? [steps[0], ...(listsOfTrial.includes(steps[2]) ? [steps[2], ...steps.slice(4)] : steps.slice(2))]
    : steps;
  return fieldsByKeys.get(keys.join('.'));
}

/** Fields that the screens set in their own way. */
const otherLabels: Readonly<Record<string, string>> = {
  positionMm: 'place, mm',
  tiltDeg: 'tilt, degrees',
  on: 'on',
  lamps: 'lamps',
  windows: 'windows that it lights',
  corners: 'outline in the photo',
  outline: 'outline',
  leaveOut: 'patches left out',
  painted: 'print marked by hand',
  name: 'name',
  like: 'begun like',
  mirroredTo: 'mirrored to',
  planned: 'plan',
  what: 'planned',
  from: 'forecast from',
  evenness: 'evenness, forecast',
  evennessPlusMinus: 'plus-minus of the forecast',
};

function valueWords(value: unknown, field: RecordField | undefined): string {
  if (value === undefined) return 'nothing';
  if (field?.kind.as === 'choice') return field.kind.words[String(value)] ?? String(value);
  if (field?.kind.as === 'number') return `${textOfValue(value)}${field.kind.unit === '' ? '' : ` ${field.kind.unit}`}`;
  if (Array.isArray(value) && value.every((one) => typeof one !== 'object')) return value.join(', ');
  return typeof value === 'object' ? '' : textOfValue(value);
}

/** Long texts are told by their beginnings. */
const shortened = (text: string): string => (text.length > 90 ? `${text.slice(0, 88).trimEnd()} …` : text);

function fromTo(label: string, { before, after }: Change, field: RecordField | undefined): string {
  const [from, to] = [valueWords(before, field), valueWords(after, field)].map(shortened);
  if (from === '' || to === '') return `${label} changed`;
  if (before === undefined) return `${label}: ${to}`;
  if (after === undefined) return `${label}: taken away (was ${from})`;
  return `${label}: ${to} (was ${from})`;
}

function itemLine(steps: readonly string[], { before, after }: Change): string {
  const kind = itemWords[steps.length === 2 ? steps[0] : steps[2]];
  const name = steps.at(-1) ?? '';
  const whole = steps.length === 2 ? `${kind} ${name}` : `${steps[1]}: ${kind} ${name}`;
  return `${whole} ${after === undefined ? 'removed' : before === undefined ? 'added' : 'changed'}`;
}

function readingLine(steps: readonly string[], { after }: Change): string {
  const name = steps[1];
  if (steps.length > 2) return `Measured again: ${name}`;
  if (!isItem(after)) return `Reading of ${name} removed`;
  return `Measured: ${name}, evenness ${shortFigure(after['evenness'] as Figure)}`;
}

function lineOf(change: Change): string {
  const steps = stepsOf(change.place);
  if (steps[0] === 'readings') return readingLine(steps, change);
  if (steps[0] === 'chosen') return fromTo(steps[1] === 'why' ? 'Reason of the choice' : 'Chosen', change, undefined);
  if (isItemOfList(steps)) return itemLine(steps, change);
  const field = fieldOf(steps);
  const label = field?.label ?? otherLabels[steps.at(-1) ?? ''] ?? otherLabels[steps[2]] ?? steps.join(' ');
  const belongsTo = lists.includes(steps[0]) ? steps.slice(1, listsOfTrial.includes(steps[2]) ? 4 : 2) : [];
  const owner = belongsTo.filter((step) => !listsOfTrial.includes(step)).join(', ');
  return fromTo(owner === '' ? label : `${owner}: ${label}`, change, field);
}

/** What a revision changed, in plain words, a line a change; the same line is said once. */
export function timelineWords({ changes, restores, revision }: UnitRevision): string[] {
  const lines = [...new Set(changes.flatMap(leavesOf).map(lineOf))];
  if (restores !== null) return [`As it was in revision ${restores}`, ...lines];
  if (lines.length > 0) return lines;
  return [revision === 1 ? 'The record was begun' : 'Saved without a change'];
}
