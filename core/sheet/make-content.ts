import type { Comparison } from '../contract/comparison';
import type { FailedWindow, MeasuredWindow } from '../contract/measure';
import type { UnitRecord, UnitTrial, UnitWindow } from '../contract/unit-record';
import { cautions } from './cautions';
import { lampDrawing } from './lamp-drawing';
import { plannedWords } from '../display/planned-words';
import { measuredHow } from './measured-how';
import { gapsOfTrial, notRecordedBlock } from './not-recorded';
import {
  beforeSection,
  checksSection,
  goBackSection,
  partsSection,
  trialBlocks,
  type ShownRecord,
} from './record-facts';
import { sharedRecord, sharedText } from './shared-record';
import type { SheetBlock, SheetContent, SheetSection } from './sheet-content';
import type { ShownWindow } from './shown-window';
import { matchBlocks } from './match-table';
import { figuresOfTrials, trialTable } from './trial-table';
import { dayText, joined, sentence } from './value-text';
import { windowSection } from './window-section';

export interface SheetSource {
  readonly record: UnitRecord;
  /** Reference and trials of every window, as far as their photos could be measured. */
  readonly measured: readonly MeasuredWindow[];
  readonly failed: readonly FailedWindow[];
  /** null: nothing was measured. */
  readonly comparison: Comparison | null;
  /** Name and version of the program. */
  readonly program: string;
  /** Without personal data. */
  readonly isShared?: boolean;
}

/** Each window with the photo of the filament and that of the chosen trial. */
export function shownWindows({ record, measured }: Pick<SheetSource, 'record' | 'measured'>): ShownWindow[] {
  const chosen = record.chosen?.trial;
  return record.windows.map((window) => {
    const own = measured.filter(({ reading }) => reading.window === window.name);
    return {
      window,
      before: own.find(({ role }) => role === 'reference') ?? null,
      after: own.find(({ role, reading }) => role === 'trial' && reading.name === chosen) ?? null,
    };
  });
}

function headLines(record: UnitRecord, isShared: boolean): string[] {
  const { name, maker, model, serialNumber, owner, savedAt } = record;
  const called = [maker, model].filter((word) => word !== undefined).join(' ');
  const first = joined(called === name ? undefined : called, serialNumber && `serial number ${serialNumber}`);
  const second = joined(owner && `For ${owner}`, `lamp swap as of ${dayText(savedAt)}`)!;
  return [
    ...(first ? [first[0].toUpperCase() + first.slice(1)] : []),
    sentence(second),
    ...(isShared ? [sharedText] : []),
  ];
}

/** The chosen trial in the words of its figures, of the first window that has them. */
function verdictOf(shown: readonly ShownWindow[]): string | null {
  const reading = shown.find(({ after }) => after !== null)?.after?.reading;
  if (!reading) return null;
  const { evenness, redPrint, colour } = reading;
  const parts = [
    evenness.score.value === null ? '' : evenness.words,
    redPrint.index.value === null ? '' : redPrint.words,
    colour.x.value === null ? '' : `colour: ${colour.verdict}`,
  ].filter((words) => words !== '');
  return parts.length === 0 ? null : parts.map(sentence).join(' ');
}

/** What was planned of a trial beside what was measured: of the window that was planned for, else of the first. */
function plannedText(source: SheetSource, record: UnitRecord, trial: UnitTrial): string | null {
  const window = trial.planned?.window ?? record.windows.at(0)?.name ?? '';
  const own = figuresOfTrials(record, window, source.measured).find((one) => one.trial === trial.name);
  return plannedWords(record, trial, window, own?.figures.evenness ?? null);
}

function chosenBlocks(source: SheetSource, record: UnitRecord, trial: UnitTrial): SheetBlock[] {
  const drawings = record.windows
    .filter(({ name }) => trial.windows === undefined || trial.windows.includes(name))
    .flatMap((window): SheetBlock[] => {
      const drawing = lampDrawing(window, trial);
      return drawing ? [{ kind: 'drawing', caption: `Lamp positions: ${window.name}`, drawing }] : [];
    });
  const why = record.chosen?.why;
  return [
    { kind: 'text', text: trial.name, tone: 'strong' },
    ...(why === undefined ? [] : [{ kind: 'text' as const, text: `Chosen because: ${why}` }]),
    ...trialBlocks(trial, plannedText(source, record, trial)),
    // One drawing is enough where windows share their lamps' frame of reference only with the first.
    ...drawings.slice(0, trial.windows === undefined ? 1 : drawings.length),
  ];
}

function fittedSection(source: SheetSource, { shown: record, whole }: ShownRecord): SheetSection | null {
  const isChosen = ({ name }: UnitTrial): boolean => name === record.chosen?.trial;
  const trial = record.trials.find(isChosen);
  const gaps = whole.trials.filter(isChosen).flatMap(gapsOfTrial);
  if (trial) {
    return { title: 'What was fitted', blocks: [...chosenBlocks(source, record, trial), ...notRecordedBlock(gaps)] };
  }
  if (record.trials.length === 0) return null;
  return { title: 'What was fitted', blocks: [{ kind: 'text', text: 'No trial has been chosen yet.' }] };
}

function trialsSection(source: SheetSource, record: UnitRecord): SheetSection | null {
  const several = record.windows.length > 1;
  const blocks = record.windows.flatMap(({ name }): SheetBlock[] => {
    const reference = source.measured.find(({ role, reading }) => role === 'reference' && reading.window === name);
    const kept = record.readings.find((one) => one.trial === null && one.window === name);
    const table = trialTable(
      figuresOfTrials(record, name, source.measured),
      source.comparison?.ranking.windows[name],
      reference?.reading.evenness.score ?? kept?.evenness,
      record.chosen?.trial,
    );
    return table.length > 0 && several ? [{ kind: 'text', text: name, tone: 'strong' }, ...table] : table;
  });
  return blocks.length === 0 ? null : { title: 'All trials', blocks };
}

/** What else was tried, so that it need not be tried again. */
function otherTrials(source: SheetSource, record: UnitRecord): SheetSection | null {
  const others = record.trials.filter(({ name }) => name !== record.chosen?.trial);
  const blocks = others.flatMap((trial): SheetBlock[] => {
    const own = trialBlocks(trial, plannedText(source, record, trial));
    return own.length === 0 ? [] : [{ kind: 'text', text: trial.name, tone: 'strong' }, ...own];
  });
  return blocks.length === 0 ? null : { title: 'The other trials', blocks };
}

function notesSection(record: UnitRecord, windows: readonly UnitWindow[]): SheetSection | null {
  const blocks: SheetBlock[] = [
    ...(record.notes === undefined ? [] : [{ kind: 'text' as const, text: record.notes }]),
    ...windows.flatMap(({ name, notes }): SheetBlock[] =>
      notes === undefined ? [] : [{ kind: 'text', text: `${name}: ${notes}` }],
    ),
  ];
  return blocks.length === 0 ? null : { title: 'Notes', blocks };
}

/**
 * What stands on the record sheet of a unit: before and after, all trials, what was fitted, how to go back, how it was
 * measured, cautions. What was left open has no place of its own; where it matters, one line a group says what is not recorded.
 *
 * @rule RS1, RS2, RS15
 */
export function sheetContent(source: SheetSource): SheetContent {
  const isShared = source.isShared === true;
  const record = isShared ? sharedRecord(source.record) : source.record;
  const both = { shown: record, whole: source.record };
  const shown = shownWindows({ record, measured: source.measured });
  const sections = [
    ...shown.map((one) => windowSection(one, record)),
    matchBlocks(source.comparison?.match ?? [], record.chosen?.trial),
    fittedSection(source, both),
    checksSection(both),
    goBackSection(both),
    cautions,
    beforeSection(both),
    trialsSection(source, record),
    partsSection(record),
    notesSection(record, record.windows),
    otherTrials(source, record),
    ...measuredHow({ ...source, record, isShared }),
  ].filter((section): section is SheetSection => section !== null);
  return {
    title: record.name,
    lines: headLines(record, isShared),
    verdict: verdictOf(shown),
    sections,
    foot: `${record.name}, revision ${record.revision}`,
    savedAt: record.savedAt,
  };
}
