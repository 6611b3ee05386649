import { printable, shortFigure } from '../../display/figure-text';
import { rankedFigures, type RankedFigure } from '../../contract/comparison';
import type { ComparedReading } from '../../compare/compared-window';
import type { Sweep } from '../../compare/sweeps';
import { rankedColumns } from './ranking-text';
import { lineWidth, padColumns } from './wrap';

const valueWidth = 10;
const figureWidth = 14;
const heads: Readonly<Record<RankedFigure, string>> = {
  evenness: 'evenness',
  redPrint: 'red print %',
  colour: 'colour 10⁻³',
};

/**
 * What one coordinate of one lamp does, step by step.
 *
 * @param readings of the trials of one window
 * @returns empty when fewer than two steps were measured
 * @rule CL21
 */
export function sweepLines({ lamp, coordinate, steps }: Sweep, readings: readonly ComparedReading[]): string[] {
  const rows = steps.flatMap(({ value, trials }) =>
    trials.flatMap((name) => {
      const reading = readings.find((one) => one.name === name);
      return reading ? [{ value, reading }] : [];
    }),
  );
  if (new Set(rows.map(({ value }) => value)).size < 2) return [];
  const head = rankedFigures.map((figure) => heads[figure].padStart(figureWidth)).join('');
  const nameWidth = lineWidth - 4 - valueWidth - 3 * figureWidth;
  return [
    '',
    `  Lamp ${printable(lamp)}: what ${coordinate.replace(/ (\S+)$/, '')} does`,
    `  ${coordinate.padStart(valueWidth)}${head}`,
    ...rows.map(({ value, reading }) => {
      const figures = rankedFigures.map((figure) => {
        const { of, scale } = rankedColumns[figure];
        return shortFigure(of(reading), scale).padStart(figureWidth);
      });
      return `  ${String(value).padStart(valueWidth)}${figures.join('')}  ${padColumns(printable(reading.name), nameWidth)}`.trimEnd();
    }),
  ];
}
