import type { Comparison } from '../../contract/comparison';
import type { ReadingRow } from './csv';
import type { ShownWindow } from '../../compare/find-matches';
import type { Sweep } from '../../compare/sweeps';
import { printable } from '../../display/figure-text';
import { matchLines } from './match-text';
import { rankingLines } from './ranking-text';
import { sweepLines } from './sweep-text';
import { summaryRows } from './table-summary';
import { hangingLines, titleLine } from './wrap';

export interface ComparedSeries {
  readonly windows: readonly string[];
  readonly shown: readonly ShownWindow[];
  readonly comparison: Comparison;
  readonly sweeps: readonly Sweep[];
  /** Every entry of the document, for the summary. */
  readonly rows: readonly ReadingRow[];
  /** What prints all of each reading. */
  readonly readingsCommand: string;
}

function windowLines(window: string, { shown, comparison, sweeps }: ComparedSeries): string[] {
  const own = shown.filter(({ reading }) => reading.window === window);
  const trials = own.filter(({ role }) => role === 'trial');
  const reference = own.find(({ role }) => role === 'reference')?.reading;
  const readings = trials.map(({ reading }) => reading);
  return [
    titleLine(`Which is better: ${printable(window)}`),
    ...(trials.length === 0
      ? ['  No trial was measured.']
      : rankingLines(comparison.ranking.windows[window], trials, reference)),
    ...sweeps.flatMap((sweep) => sweepLines(sweep, readings)),
  ];
}

/**
 * The comparison for a person: a summary, each window's trials in order, sweeps of lamps, and how alike the windows are.
 * Every line keeps to 100 columns.
 *
 * @rule CL21
 */
export function comparisonText(series: ComparedSeries): string {
  const { match } = series.comparison;
  const blocks = [
    [titleLine(`Summary of ${series.rows.length}`), ...summaryRows(series.rows)],
    ...series.windows.map((window) => windowLines(window, series)),
    ...(match.length === 0 ? [] : [[titleLine('Windows beside each other'), ...match.flatMap(matchLines)]]),
    hangingLines('  ', `± is k = 2. The photo checks of each reading: '${series.readingsCommand}'.`),
  ];
  return `${blocks.map((lines) => lines.join('\n')).join('\n\n')}\n`;
}
