import { lightWords, printWords, roomWords } from '../words';
import type { FieldPath } from './field-path';

/** How an answer is given. Everything may be left open. */
export type FieldKind =
  | { readonly as: 'line' }
  | { readonly as: 'text' }
  | { readonly as: 'number'; readonly unit: string }
  | { readonly as: 'choice'; readonly words: Readonly<Record<string, string>> }
  | { readonly as: 'yes-no' }
  | { readonly as: 'day' };

export interface RecordField {
  /** From the unit, or from the trial, lamp, string, window or part that it belongs to. */
  readonly path: FieldPath;
  readonly label: string;
  readonly kind: FieldKind;
  /** What the answer is good for, or how to find it out. */
  readonly hint?: string;
}

export interface FieldGroup {
  readonly title: string;
  readonly fields: readonly RecordField[];
}

const line: FieldKind = { as: 'line' };
const text: FieldKind = { as: 'text' };
const yesNo: FieldKind = { as: 'yes-no' };
const inUnit = (unit: string): FieldKind => ({ as: 'number', unit });
const oneOf = (words: Readonly<Record<string, string>>): FieldKind => ({ as: 'choice', words });

function field(path: string, label: string, kind: FieldKind, hint?: string): RecordField {
  return { path: path.split('.'), label, kind, ...(hint === undefined ? {} : { hint }) };
}

export const unitFields: readonly RecordField[] = [
  field('name', 'Name', line),
  field('maker', 'Maker', line),
  field('model', 'Model', line),
  field('serialNumber', 'Serial number', line),
  field('owner', 'Owner', line),
];

export const beforeGroups: readonly FieldGroup[] = [
  {
    title: 'The lamp that was there',
    fields: [
      field('before.lamp.base', 'Base', line, 'as E10, wedge, wire leads'),
      field('before.lamp.size', 'Size', line),
      field('before.lamp.ratedV', 'Rated volts', inUnit('V')),
      field('before.lamp.ratedMa', 'Rated current', inUnit('mA')),
      field('before.lamp.countOnSupply', 'Lamps on the same supply', inUnit('')),
    ],
  },
  {
    title: 'Its supply, measured before anything was changed',
    fields: [
      field('before.supply.kind', 'Kind', oneOf({ AC: 'AC', DC: 'DC' })),
      field('before.supply.hz', 'Frequency', inUnit('Hz')),
      field('before.supply.voltsWithLamp', 'With the lamp in', inUnit('V')),
      field('before.supply.voltsWithoutLamp', 'With the lamp out', inUnit('V')),
      field(
        'before.supply.wiring',
        'Wiring',
        oneOf({ single: 'a single lamp', series: 'in series', parallel: 'in parallel' }),
      ),
      field('before.supply.dropper', 'Dropper', line),
      field('before.supply.dimmer', 'Dimmer', line),
      field('before.supply.chassis', 'Chassis or centre tap', line, 'whether a side lies on it'),
      field('before.supply.alsoOnLine', 'Also on this line', text),
      field('before.supply.senseTest', 'With the lamp pulled', text, 'what stops working? Then the lamp is a signal'),
    ],
  },
  {
    title: 'Its light',
    fields: [
      field('before.light.boot', 'Boot, cap or dip', line),
      field('before.light.bootColour', 'Its colour', line),
      field('before.light.bootState', 'Its state', line),
      field('before.light.referenceLamp', 'Lamp of the reference', oneOf({ new: 'new', tired: 'tired' })),
      field('before.light.referenceVolts', 'Its volts', inUnit('V')),
      field(
        'before.light.path',
        'Light path',
        oneOf({ behind: 'from behind', bounced: 'bounced', 'edge-lit': 'edge-lit' }),
      ),
      field('before.light.boxWall', 'Wall of the box', line),
      field('before.light.cleanedSinceReference', 'Cleaned since the reference', yesNo),
      field('before.light.glass', 'Glass', oneOf({ on: 'on', off: 'off' })),
    ],
  },
  { title: 'Notes', fields: [field('before.notes', 'Notes on before', text)] },
];

/** From a trial. */
export const trialFields: readonly RecordField[] = [
  field('light', 'Kind of light', oneOf(lightWords)),
  field('diffuser', 'Diffuser', line, 'paper, film, sanded plate, and where'),
  field('shade', 'Shade', line, 'tape, marker or printed film'),
  field('supplyVolts', 'Supply under this load', inUnit('V')),
  field('notes', 'Notes on the trial', text),
];

/** From a lamp of a trial; where it is, is set on the plan. */
export const lampFields: readonly RecordField[] = [
  field('type', 'Type', line),
  field('lot', 'Lot', line),
  field('currentMa', 'Current', inUnit('mA')),
  field('viewingAngleDeg', 'Viewing angle', inUnit('°')),
  field('bodyMm', 'Body', inUnit('mm')),
  field('flangeMm', 'Flange', inUnit('mm')),
  field('tipToScaleMm', 'Tip to the scale', inUnit('mm')),
  field('lensTreatment', 'Lens', line, 'clear, sanded, filed flat'),
];

/** From a string of a trial. */
export const stringFields: readonly RecordField[] = [
  field('resistorOhm', 'Resistor', inUnit('Ω')),
  field('resistorRatedW', 'Its rating', inUnit('W')),
  field('measuredMa', 'Current, measured', inUnit('mA')),
];

export const afterFields: readonly RecordField[] = [
  field('after.supplyVolts', 'Supply after the swap', inUnit('V')),
  field('after.temperatureC', 'Near the lamp', inUnit('°C'), 'after 30 minutes with the cover on'),
  field('after.hum', 'Hum', line),
  field('after.amNoise', 'Noise on AM', line),
  field('after.functionsRechecked', 'Functions that shared the line', text),
  field('after.reversible', 'Can be undone', yesNo),
  field('after.howToGoBack', 'How to go back', text),
  field('after.recheckOn', 'Look again on', { as: 'day' }),
  field('after.recheckResult', 'What was found then', text),
  field('after.notes', 'Notes on after', text),
];

export const photographyFields: readonly RecordField[] = [
  field('photography.room', 'Room', oneOf(roomWords)),
  field('photography.viewingDistanceMm', 'Seen from', inUnit('mm'), 'how far the eye is when the set is in use'),
];

/** From a part. */
export const partFields: readonly RecordField[] = [
  field('count', 'How many', inUnit('')),
  field('type', 'Type', line),
  field('lot', 'Lot', line),
  field('source', 'From', line),
  field('notes', 'Notes on the part', text),
];

/** From a window. */
export const windowFields: readonly RecordField[] = [
  field('widthMm', 'Width, by caliper', inUnit('mm')),
  field('heightMm', 'Height', inUnit('mm')),
  field('print', 'Print', oneOf(printWords)),
  field('notes', 'Notes on the window', text),
];

export const notesField = field('notes', 'Notes', text);

/** Every field by its own keys, for words about a change: `before.lamp.base`, `lamps.currentMa`. */
const under = (start: string, fields: readonly RecordField[]): [string, RecordField][] =>
  fields.map((one) => [[...(start === '' ? [] : [start]), ...one.path].join('.'), one]);

export const fieldsByKeys: ReadonlyMap<string, RecordField> = new Map([
  ...under('', [...unitFields, ...beforeGroups.flatMap(({ fields }) => fields), ...afterFields, ...photographyFields]),
  ...under('', [notesField]),
  ...under('trials', trialFields),
  ...under('trials.lamps', lampFields),
  ...under('trials.strings', stringFields),
  ...under('parts', partFields),
  ...under('windows', windowFields),
]);
