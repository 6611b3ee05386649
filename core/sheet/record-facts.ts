import type { UnitLamp, UnitRecord, UnitTrial } from '../contract/unit-record';
import { notRecordedBlock } from './not-recorded';
import type { SheetBlock, SheetSection, TableCell } from './sheet-content';
import { dayText, factsOf, joined, plainNumber, withUnit, yesOrNo } from './value-text';

/** `matters`: said to be not recorded when it was left open. */
type Asked = readonly [label: string, value: string | undefined, matters?: 'matters'];

/** A record as it is shown, and as it is: of a copy to be shared something is left out that was recorded. */
export interface ShownRecord {
  readonly shown: UnitRecord;
  readonly whole: UnitRecord;
}

/** Facts, a note, and what was left open, as a section; null when nothing is to be said. */
function factSection(
  title: string,
  asked: (record: UnitRecord) => readonly Asked[],
  { shown, whole }: ShownRecord,
  { notes, isDone }: { readonly notes: string | undefined; readonly isDone: boolean },
): SheetSection | null {
  const facts = factsOf(asked(shown).map(([label, value]) => [label, value]));
  const gaps = asked(whole).flatMap(([label, value, matters]) => (matters && value === undefined ? [label] : []));
  const blocks: SheetBlock[] = [
    ...(facts.length > 0 ? [{ kind: 'facts' as const, facts }] : []),
    ...(notes === undefined ? [] : [{ kind: 'text' as const, text: notes }]),
    ...(isDone ? notRecordedBlock(gaps) : []),
  ];
  return blocks.length === 0 ? null : { title, blocks };
}

function askedBefore({ before }: UnitRecord): readonly Asked[] {
  const { lamp, supply, light } = before ?? {};
  return [
    [
      'Lamp',
      joined(lamp?.base, lamp?.size, withUnit(lamp?.ratedV, 'V'), withUnit(lamp?.ratedMa, 'mA'), light?.referenceLamp),
      'matters',
    ],
    ['Lamps on the supply', lamp?.countOnSupply === undefined ? undefined : String(lamp.countOnSupply), 'matters'],
    ['Wiring', supply?.wiring, 'matters'],
    ['Supply', joined(supply?.kind, withUnit(supply?.hz, 'Hz')), 'matters'],
    ['Volts with the lamp in', withUnit(supply?.voltsWithLamp, 'V'), 'matters'],
    ['Volts with the lamp out', withUnit(supply?.voltsWithoutLamp, 'V'), 'matters'],
    ['Dropper', supply?.dropper],
    ['Dimmer', supply?.dimmer],
    ['Chassis, centre tap', supply?.chassis, 'matters'],
    ['Also on the line', supply?.alsoOnLine, 'matters'],
    ['With the lamp pulled', supply?.senseTest, 'matters'],
    ['Boot or cap', joined(light?.boot, light?.bootColour, light?.bootState)],
    ['Reference photo at', withUnit(light?.referenceVolts, 'V')],
    ['Light path', light?.path, 'matters'],
    ['Box wall', light?.boxWall],
    ['Cleaned since the reference', yesOrNo(light?.cleanedSinceReference), 'matters'],
    ['Glass', light?.glass, 'matters'],
  ];
}

/** What was in the unit before the swap. Of a unit without a window nothing has begun. @rule RS2, RS15 */
export function beforeSection(record: ShownRecord): SheetSection | null {
  const notes = record.shown.before?.notes;
  return factSection('What was there before', askedBefore, record, {
    notes,
    isDone: record.whole.windows.length > 0,
  });
}

const askedAfter = ({ after }: UnitRecord): readonly Asked[] => [
  ['Supply', withUnit(after?.supplyVolts, 'V'), 'matters'],
  ['Near the lamp after 30 min, cover on', withUnit(after?.temperatureC, '°C'), 'matters'],
  ['Hum', after?.hum, 'matters'],
  ['AM noise', after?.amNoise, 'matters'],
  ['Functions on the same line', after?.functionsRechecked, 'matters'],
  ['Check again on', after?.recheckOn === undefined ? undefined : dayText(after.recheckOn), 'matters'],
  ['Checked again', after?.recheckResult],
];

/** What was checked after the swap; before a trial is chosen there was none. @rule RS2, RS15 */
export function checksSection(record: ShownRecord): SheetSection | null {
  const isDone = record.whole.chosen !== undefined;
  return factSection('Checks after the swap', askedAfter, record, { notes: record.shown.after?.notes, isDone });
}

const askedOfGoingBack = ({ after }: UnitRecord): readonly Asked[] => [
  ['Reversible', yesOrNo(after?.reversible), 'matters'],
  ['What to do', after?.howToGoBack, 'matters'],
];

/** How to put the unit back as it was. @rule RS2, RS15 */
export function goBackSection(record: ShownRecord): SheetSection | null {
  const isDone = record.whole.chosen !== undefined;
  return factSection('How to go back', askedOfGoingBack, record, { notes: undefined, isDone });
}

const coordinates = (given: readonly number[] | undefined, digits = 1): string =>
  // Numbers of one place are not torn apart at the end of a line.
  given === undefined ? '' : given.map((value) => plainNumber(Number(value.toFixed(digits)))).join(',\u00a0');

function lampRow(lamp: UnitLamp, number: number): TableCell[] {
  const made = joined(
    lamp.type,
    lamp.lot === undefined ? undefined : `lot ${lamp.lot}`,
    lamp.lensTreatment && `lens: ${lamp.lensTreatment}`,
  );
  const size = joined(
    lamp.bodyMm === undefined ? undefined : `body ${plainNumber(lamp.bodyMm)}`,
    lamp.flangeMm === undefined ? undefined : `flange ${plainNumber(lamp.flangeMm)}`,
    lamp.tipToScaleMm === undefined ? undefined : `tip to scale ${plainNumber(lamp.tipToScaleMm)}`,
  );
  return [
    `${number} ${lamp.name}${lamp.on === false ? ' (off)' : ''}`,
    made ?? '',
    lamp.viewingAngleDeg === undefined ? '' : `${plainNumber(lamp.viewingAngleDeg)}°`,
    size ?? '',
    coordinates(lamp.positionMm),
    coordinates(lamp.tiltDeg, 0),
    lamp.currentMa === undefined ? '' : plainNumber(lamp.currentMa),
  ];
}

/** Only columns that say something; the first always. */
export function filledColumns(titles: readonly string[], rows: readonly (readonly TableCell[])[]): SheetBlock {
  const kept = titles.map((_, i) => i === 0 || rows.some((row) => row[i] !== ''));
  return {
    kind: 'table',
    columns: titles.filter((_, i) => kept[i]).map((title) => ({ title })),
    rows: rows.map((row) => row.filter((_, i) => kept[i])),
  };
}

const lampTitles = ['Lamp', 'What it is', 'Angle', 'Sizes, mm', 'x, y, depth, mm', 'Tilt, °', 'mA'];

/** Lamps first those with a place, numbered as on the drawing. */
function lampTable(trial: UnitTrial): SheetBlock[] {
  const lamps = trial.lamps ?? [];
  const placed = lamps.filter(({ positionMm }) => positionMm !== undefined);
  const others = lamps.filter(({ positionMm }) => positionMm === undefined);
  const rows = [...placed, ...others].map((lamp, i) => lampRow(lamp, i + 1));
  return rows.length === 0 ? [] : [filledColumns(lampTitles, rows)];
}

function stringTable(trial: UnitTrial): SheetBlock[] {
  const rows = (trial.strings ?? []).map(({ name, lamps, resistorOhm, resistorRatedW, measuredMa }): TableCell[] => [
    name,
    lamps?.join(', ') ?? '',
    resistorOhm === undefined ? '' : `${plainNumber(resistorOhm)} Ω`,
    resistorRatedW === undefined ? '' : `${plainNumber(resistorRatedW)} W`,
    measuredMa === undefined ? '' : `${plainNumber(measuredMa)} mA`,
  ]);
  return rows.length === 0 ? [] : [filledColumns(['String', 'Lamps', 'Resistor', 'Rated', 'Measured'], rows)];
}

/** The lamps, resistors and materials of a trial. @param planned  in words; null: nothing was @rule RS2, RS6 */
export function trialBlocks(trial: UnitTrial, planned: string | null): SheetBlock[] {
  const facts = factsOf([
    ['Light', trial.light],
    ['Windows', trial.windows?.join(', ')],
    ['Diffuser', trial.diffuser],
    ['Shade', trial.shade],
    ['Supply', withUnit(trial.supplyVolts, 'V')],
    ['Begun from', trial.like],
    ['Mirrored to', trial.mirroredTo],
    ['Planned', planned ?? undefined],
  ]);
  return [
    ...(facts.length === 0 ? [] : [{ kind: 'facts' as const, facts }]),
    ...lampTable(trial),
    ...stringTable(trial),
    ...(trial.notes === undefined ? [] : [{ kind: 'text' as const, text: trial.notes }]),
  ];
}

/** What was bought or taken for the swap. @rule RS2 */
export function partsSection({ parts }: UnitRecord): SheetSection | null {
  if (parts.length === 0) return null;
  const rows = parts.map(({ name, count, type, lot, source, notes }): TableCell[] => [
    name,
    count === undefined ? '' : String(count),
    type ?? '',
    lot ?? '',
    source ?? '',
    notes ?? '',
  ]);
  return { title: 'Parts', blocks: [filledColumns(['Part', 'Count', 'Type', 'Lot', 'From', 'Notes'], rows)] };
}
