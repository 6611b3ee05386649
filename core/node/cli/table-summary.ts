import type { Reading } from '../../contract/readings';
import type { ReadingRow } from './csv';
import { shortFigure } from '../../display/figure-text';
import { isLeftOut } from './missing-figures';
import { hasSeveralWindows, rowNames } from './row-names';
import { lineWidth, padColumns, wrapText } from './wrap';

interface SummaryColumn {
  readonly head: string;
  readonly of: (reading: Reading) => string;
}

const figureWidth = 13;
const checksWidth = 10;

/** Only what can be given: the colour's temperature stands in for its distance as long as nothing is compared. */
function summaryColumns(readings: readonly Reading[]): SummaryColumn[] {
  const every = (of: (reading: Reading) => boolean): boolean => readings.length > 0 && readings.every(of);
  return [
    { head: 'evenness', of: (r) => shortFigure(r.evenness.score) },
    ...(every((r) => isLeftOut(r.redPrint.index))
      ? []
      : [{ head: 'red print %', of: (r: Reading) => shortFigure(r.redPrint.index) }]),
    every((r) => r.colour.toReferenceUv.value === null)
      ? { head: 'glow, K', of: (r) => shortFigure(r.colour.cctK) }
      : { head: 'colour 10⁻³', of: (r) => shortFigure(r.colour.toReferenceUv, 1000) },
  ];
}

/** How many checks refuse and warn: `■ 1 ▲ 2`. */
export function checkCounts(reading: Reading): string {
  const refused = reading.gates.filter((gate) => gate.level === 'refuse').length;
  const warned = reading.gates.filter((gate) => gate.level === 'warn').length;
  return [...(refused ? [`■ ${refused}`] : []), ...(warned ? [`▲ ${warned}`] : [])].join(' ');
}

/** One reading a row; a long name goes on under its beginning. @rule CL8 */
export function summaryRows(rows: readonly ReadingRow[]): string[] {
  const columns = summaryColumns(rows.flatMap(({ entry }) => ('error' in entry ? [] : [entry])));
  const nameWidth = lineWidth - 2 - figureWidth * columns.length - 3 - checksWidth;
  const names = rowNames(rows, hasSeveralWindows(rows));
  const head = `  ${''.padEnd(nameWidth)}${columns.map((column) => column.head.padStart(figureWidth)).join('')}   checks`;
  return [
    head,
    ...rows.flatMap(({ role, entry }, i) => {
      const [first, ...more] = wrapText(`${role === 'reference' ? '(ref) ' : ''}${names[i]}`, nameWidth);
      const figures =
        'error' in entry
          ? `  ■ not measured (${entry.error.code})`
          : `${columns.map((column) => column.of(entry).padStart(figureWidth)).join('')}   ${checkCounts(entry)}`;
      return [
        `  ${padColumns(first, nameWidth)}${figures}`.trimEnd(),
        ...more.map((line) => `    ${padColumns(line, nameWidth - 2)}`.trimEnd()),
      ];
    }),
  ];
}
