import { rankedFigures, type RankedFigure, type WindowRanking } from '../contract/comparison';
import type { MeasuredWindow } from '../contract/measure';
import type { UnitReading, UnitRecord } from '../contract/unit-record';
import { afterColour, beforeColour, faint, rectangle, type Drawing } from './drawing';
import type { SheetBlock, TableCell } from './sheet-content';
import { figureCell, sentence, type ShownFigure } from './value-text';

/** The leading figures of one trial in one window, measured now or as the record keeps them. */
export interface TrialFigures {
  readonly trial: string;
  readonly figures: Readonly<Record<RankedFigure, ShownFigure>>;
  /** From the record, since the photo could not be measured now. */
  readonly isKept: boolean;
}

const scaleOf: Readonly<Record<RankedFigure, number>> = { evenness: 1, redPrint: 1, colour: 1000 };

/** What there is of every trial of a window: its measurement, else what the record keeps. */
export function figuresOfTrials(
  record: UnitRecord,
  window: string,
  measured: readonly MeasuredWindow[],
): TrialFigures[] {
  const kept = (one: UnitReading | undefined, trial: string): TrialFigures[] =>
    one === undefined
      ? []
      : [
          {
            trial,
            figures: { evenness: one.evenness, redPrint: one.redPrint, colour: one.toReferenceUv },
            isKept: true,
          },
        ];
  return record.trials.flatMap(({ name }): TrialFigures[] => {
    const found = measured.find(
      ({ role, reading }) => role === 'trial' && reading.name === name && reading.window === window,
    );
    if (!found)
      return kept(
        record.readings.find((one) => one.trial === name && one.window === window),
        name,
      );
    const { evenness, redPrint, colour } = found.reading;
    const figures = { evenness: evenness.score, redPrint: redPrint.index, colour: colour.toReferenceUv };
    return [{ trial: name, figures, isKept: false }];
  });
}

/** `1`, or `1–3` for three that cannot be told apart; null: not ranked. */
export function placeText(ranking: WindowRanking | undefined, figure: RankedFigure, trial: string): string | null {
  let before = 0;
  for (const group of ranking?.[figure] ?? []) {
    if (group.includes(trial)) {
      return group.length === 1 ? String(before + 1) : `${before + 1}–${before + group.length}`;
    }
    before += group.length;
  }
  return null;
}

const barWidthMm = 36;

/** Evenness on its axis from 0 to 100: the plus-minus as a band, the value as a line, the filament as a ring. */
function evennessBar({ value, plusMinus }: ShownFigure, reference: ShownFigure | undefined): Drawing | string {
  if (value === null || plusMinus === null) return '';
  const x = (score: number): number => (Math.min(100, Math.max(0, score)) / 100) * barWidthMm;
  const [from, to] = [x(value - plusMinus), x(value + plusMinus)];
  const ring = reference?.value == null ? [] : [x(reference.value)];
  return {
    widthMm: barWidthMm,
    heightMm: 3.4,
    title: `${Math.round(value)} on an axis from 0 to 100`,
    items: [
      { kind: 'line', points: [[0, 1.7], [barWidthMm, 1.7]], stroke: { colour: faint, widthMm: 0.2 } }, // prettier-ignore
      { kind: 'shape', points: rectangle(from, 0.9, to - from, 1.6), fill: [168, 200, 194] },
      { kind: 'line', points: [[x(value), 0.3], [x(value), 3.1]], stroke: { colour: afterColour, widthMm: 0.6 } }, // prettier-ignore
      ...ring.map((at) => ({
        kind: 'ellipse' as const,
        centre: [at, 1.7] as const,
        radii: [0.9, 0.9] as const,
        stroke: { colour: beforeColour, widthMm: 0.3 },
      })),
    ],
  };
}

const rankOf = (ranking: WindowRanking | undefined, trial: string): number => {
  const at = ranking?.evenness.findIndex((group) => group.includes(trial)) ?? -1;
  return at < 0 ? Number.MAX_SAFE_INTEGER : at;
};

/**
 * All trials of a window by evenness, with the place of each figure; trials that cannot be told apart share a place.
 *
 * @param ranking   of this window; left out: nothing was compared
 * @param reference the filament's evenness
 * @rule RS8
 */
export function trialTable(
  trials: readonly TrialFigures[],
  ranking: WindowRanking | undefined,
  reference: ShownFigure | undefined,
  chosen: string | undefined,
): SheetBlock[] {
  if (trials.length === 0) return [];
  const sorted = [...trials].sort((a, b) => rankOf(ranking, a.trial) - rankOf(ranking, b.trial));
  const place = (trial: string, figure: RankedFigure): string => placeText(ranking, figure, trial) ?? '–';
  const rows = sorted.map(({ trial, figures, isKept }): TableCell[] => [
    `${trial}${trial === chosen ? ' (chosen)' : ''}${isKept ? ' *' : ''}`,
    evennessBar(figures.evenness, reference),
    ...rankedFigures.flatMap((figure) => [figureCell(figures[figure], scaleOf[figure]), place(trial, figure)]),
  ]);
  const notes = [
    'Places: 1 is the best. Trials that share places, as 1–3, cannot be told apart: the difference is within its plus-minus.',
    ...(reference?.value == null
      ? []
      : [`Bar: evenness from 0 to 100 with its plus-minus; ring: the filament, ${figureCell(reference)}.`]),
    ...(trials.some(({ isKept }) => isKept)
      ? ['* As the record keeps it; its photo could not be measured again.']
      : []),
    ...notRankedTexts(ranking, trials.length),
  ];
  return [
    {
      kind: 'table',
      columns: [
        { title: 'Trial', tone: 'strong' },
        { title: '' },
        { title: 'Evenness', align: 'figure' },
        { title: 'Place' },
        { title: 'Red print, %', align: 'figure' },
        { title: 'Place' },
        { title: "Colour, 0.001 u'v'", align: 'figure' },
        { title: 'Place' },
      ],
      rows,
    },
    { kind: 'text', tone: 'quiet', text: notes.join(' ') },
  ];
}

const figureWords: Readonly<Record<RankedFigure, string>> = {
  evenness: 'evenness',
  redPrint: 'red print',
  colour: 'colour',
};

/** Why trials have no place, those with one reason together. */
function notRankedTexts(ranking: WindowRanking | undefined, trials: number): string[] {
  const byReason = new Map<string, Set<string>>();
  for (const figure of rankedFigures) {
    for (const { name, reason } of ranking?.notRanked[figure] ?? []) {
      const key = `No place for ${figureWords[figure]}: ${reason}`;
      byReason.set(key, (byReason.get(key) ?? new Set()).add(name));
    }
  }
  return [...byReason].map(([reason, names]) =>
    sentence(names.size === trials ? reason : `${reason} (${[...names].join(', ')})`),
  );
}
