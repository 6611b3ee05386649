import type { FieldChange, TimelineEntry } from '../../../book/timeline';
import type { UnitPhoto, UnitReading, UnitRecord, UnitTrial, UnitWindow } from '../../../contract/unit-record';
import { printable, shortFigure } from '../../../display/figure-text';
import type { ListedUnit } from '../../book/book-index';
import type { Finding } from '../../book/findings';
import { hangingLines, lineWidth, padColumns, titleLine, wrapText } from '../wrap';

/** `2026-05-31 18:00`, UTC. */
export function timeText(savedAt: string): string {
  return savedAt.slice(0, 16).replace('T', ' ');
}

export const countOf = (count: number, one: string): string => `${count} ${one}${count === 1 ? '' : 's'}`;

function listedLine(unit: ListedUnit): string {
  if ('error' in unit) return `${padColumns('(cannot be read)', 26)}  ${padColumns(unit.id, 26)}  ${unit.error.code}`;
  const { name, id, savedAt, windows, trials, chosen } = unit;
  const counts = `${countOf(windows.length, 'window')}, ${countOf(trials, 'trial')}${chosen === null ? '' : ', chosen'}`;
  return `${padColumns(printable(name), 26)}  ${padColumns(id, 26)}  ${timeText(savedAt)}  ${counts}`;
}

export function listText(units: readonly ListedUnit[], book: string, search: string | undefined): string {
  if (units.length > 0) return `${units.map(listedLine).join('\n')}\n`;
  if (search !== undefined) return `No unit holds ${printable(JSON.stringify(search))}.\n`;
  return `The book in ${printable(book)} is empty. Begin with: evendial unit new NAME\n`;
}

/** Every field of a group with its key, as `unit set` takes it. */
function fieldLines(value: unknown, key: string): string[] {
  if (typeof value === 'object' && value !== null && !Array.isArray(value))
    return Object.entries(value).flatMap(([inner, one]) => fieldLines(one, key === '' ? inner : `${key}.${inner}`));
  const shown = typeof value === 'string' ? value : JSON.stringify(value);
  return hangingLines(`  ${padColumns(key, 30)}  `, printable(shown));
}

function windowLines({ name, widthMm, heightMm, outline, print }: UnitWindow): string[] {
  const shape = outline?.kind ?? 'rectangle';
  return [`  ${padColumns(printable(name), 24)} ${widthMm} x ${heightMm} mm, ${shape}, print ${print ?? 'auto'}`];
}

function photoLines(photo: UnitPhoto): string[] {
  const role = photo.trial === undefined ? photo.role : `${photo.role}: ${photo.trial}`;
  return [`  ${padColumns(printable(photo.name), 24)} ${photo.sha256.slice(0, 8)}  ${printable(role)}`];
}

function readingLines(reading: UnitReading): string[] {
  const figures = [
    `evenness ${shortFigure(reading.evenness)}`,
    `red print ${shortFigure(reading.redPrint)} %`,
    `colour ${shortFigure(reading.toReferenceUv, 1000)} x 0.001 u'v'`,
  ];
  return [`    ${padColumns(printable(reading.window), 22)} ${figures.join(', ')}`];
}

function trialLines(trial: UnitTrial, unit: UnitRecord): string[] {
  const { name, lamps = [], light } = trial;
  const head = [light, countOf(lamps.length, 'lamp'), unit.chosen?.trial === name ? 'CHOSEN' : '']
    .filter((word) => word !== undefined && word !== '')
    .join(', ');
  return [
    ...hangingLines(`  ${padColumns(printable(name), 24)} `, head),
    ...unit.readings.filter((one) => one.trial === name).flatMap(readingLines),
  ];
}

const section = (title: string, lines: readonly string[]): string[] =>
  lines.length === 0 ? [] : ['', titleLine(title), ...lines];

/** A unit for reading on a terminal. */
export function unitText(unit: UnitRecord): string {
  const { maker, model, serialNumber, owner, notes, photography, before, after, chosen } = unit;
  const about = { maker, model, serialNumber, owner, notes, photography, chosen };
  const present = Object.fromEntries(Object.entries(about).filter(([, value]) => value !== undefined));
  const reference = unit.readings.filter(({ trial }) => trial === null).flatMap(readingLines);
  return `${[
    `${printable(unit.name)}`,
    `  unit ${unit.id}, revision ${unit.revision}, saved ${timeText(unit.savedAt)} UTC`,
    ...fieldLines(present, ''),
    ...section('Windows', unit.windows.flatMap(windowLines)),
    ...section('Reference', reference),
    ...section(
      'Trials',
      unit.trials.flatMap((trial) => trialLines(trial, unit)),
    ),
    ...section('Photos', unit.photos.flatMap(photoLines)),
    ...section('Before', before ? fieldLines(before, 'before') : []),
    ...section(
      'Parts',
      unit.parts.flatMap((part) => fieldLines(part, 'parts')),
    ),
    ...section('After', after ? fieldLines(after, 'after') : []),
  ].join('\n')}\n`;
}

const valueText = (value: unknown): string => {
  const text = typeof value === 'string' ? value : JSON.stringify(value);
  return printable(text.length > 60 ? `${text.slice(0, 59)}…` : text);
};

/** What a revision changed, one line a place; a long one has its value on a line of its own. */
export function changeLines(changes: readonly FieldChange[]): string[] {
  return changes.flatMap(({ place, ...change }) => {
    const before = 'before' in change ? valueText(change.before) : null;
    const after = 'after' in change ? valueText(change.after) : '(taken away)';
    const what = before === null ? [after] : [`${before} ->`, after];
    const head = `  ${printable(place)}:`;
    const whole = [head, ...what].join(' ');
    return whole.length <= lineWidth ? [whole] : [head, ...what.map((one) => `      ${one}`)];
  });
}

export function timelineText(entries: readonly TimelineEntry[]): string {
  const blocks = entries.map(({ revision, savedAt, restores, changes }) => {
    const head = `${timeText(savedAt)}  revision ${revision}${restores === undefined ? '' : `, as revision ${restores}`}`;
    return [head, ...(revision === 1 ? ['  begun'] : changeLines(changes))].join('\n');
  });
  return `${blocks.join('\n')}\n`;
}

function findingLines({ level, place, message, remedy, repaired }: Finding): string[] {
  const what = `${place}: ${message}`;
  return [
    ...wrapText(`${level.padEnd(6)}  ${printable(what)}`, 98),
    ...hangingLines('        ', repaired === undefined ? remedy : `repaired: ${repaired}`),
  ];
}

export function checkText(units: number, findings: readonly Finding[]): string {
  const open = findings.filter((one) => one.level !== 'note' && one.repaired === undefined).length;
  const verdict = open === 0 ? 'everything saved is whole' : `${open} not whole`;
  return `${[...findings.flatMap(findingLines), `${countOf(units, 'unit')} checked: ${verdict}.`].join('\n')}\n`;
}
