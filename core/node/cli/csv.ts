import type { Figure } from '../../contract/figure';
import type { FailedReading, Reading } from '../../contract/readings';
import { roundedNumber } from './rounded';

type Cell = string | number | boolean | null | undefined;

/** One reading, or one photo that failed, and whether it is the reference's. */
export interface ReadingRow {
  readonly role: 'trial' | 'reference';
  readonly entry: Reading | FailedReading;
}

interface Column {
  readonly name: string;
  readonly of: (reading: Reading) => Cell;
}

function figureColumns(name: string, of: (reading: Reading) => Figure): Column[] {
  return [
    { name, of: (reading) => of(reading).value },
    { name: `${name}PlusMinus`, of: (reading) => of(reading).plusMinus },
  ];
}

const photoOf = (reading: Reading): Reading['photos'][number] | undefined => reading.photos[0];

/** In this order, one by one, in every version: new columns go to the end. */
const columns: readonly Column[] = [
  ...figureColumns('score', (r) => r.evenness.score),
  { name: 'evennessWords', of: (r) => r.evenness.words },
  ...figureColumns('redPrintIndex', (r) => r.redPrint.index),
  { name: 'redPrintIndexAgainst', of: (r) => r.redPrint.indexAgainst },
  { name: 'redPrintWords', of: (r) => r.redPrint.words },
  ...figureColumns('toReferenceUv', (r) => r.colour.toReferenceUv),
  { name: 'colourVerdict', of: (r) => r.colour.verdict },
  ...figureColumns('scoreToReference', (r) => r.evenness.toReference),
  { name: 'visibleUnevenness', of: (r) => r.evenness.visibleUnevenness },
  ...figureColumns('minOverMax', (r) => r.evenness.minOverMax),
  ...figureColumns('p5OverP95', (r) => r.evenness.p5OverP95),
  ...figureColumns('coefficientOfVariation', (r) => r.evenness.coefficientOfVariation),
  ...figureColumns('ninePointMinOverMax', (r) => r.evenness.ninePoint.minOverMax),
  ...figureColumns('fivePointMinOverMax', (r) => r.evenness.fivePoint.minOverMax),
  ...figureColumns('thirteenPointMinOverMax', (r) => r.evenness.thirteenPoint.minOverMax),
  ...figureColumns('steepestPercentPerMm', (r) => r.evenness.steepestPercentPerMm),
  ...figureColumns('leftOverRight', (r) => r.evenness.leftOverRight),
  ...figureColumns('topOverBottom', (r) => r.evenness.topOverBottom),
  { name: 'hotSpots', of: (r) => r.spots.filter((spot) => spot.kind === 'hot').length },
  { name: 'darkSpots', of: (r) => r.spots.filter((spot) => spot.kind === 'dark').length },
  ...figureColumns('glowMean', (r) => r.luminance.glowMean),
  ...figureColumns('luminanceOfReference', (r) => r.luminance.ofReference),
  { name: 'clippedShare', of: (r) => r.luminance.clippedShare },
  { name: 'ambientShare', of: (r) => r.luminance.ambientShare },
  ...figureColumns('x', (r) => r.colour.x),
  ...figureColumns('y', (r) => r.colour.y),
  ...figureColumns('uPrime', (r) => r.colour.uPrime),
  ...figureColumns('vPrime', (r) => r.colour.vPrime),
  ...figureColumns('cctK', (r) => r.colour.cctK),
  ...figureColumns('duv', (r) => r.colour.duv),
  ...figureColumns('spreadUv', (r) => r.colour.spreadUv),
  ...figureColumns('gradientUvPer10Mm', (r) => r.colour.gradientUvPer10Mm),
  ...figureColumns('toReferenceDeltaE00', (r) => r.colour.toReferenceDeltaE00),
  { name: 'outOfGamut', of: (r) => r.colour.outOfGamut },
  { name: 'redPrintMaskFrom', of: (r) => r.redPrint.maskFrom },
  { name: 'strokeMm', of: (r) => r.redPrint.strokeMm },
  ...figureColumns('redness', (r) => r.redPrint.redness),
  ...figureColumns('luminanceContrast', (r) => r.redPrint.luminanceContrast),
  ...figureColumns('darkContrastKept', (r) => r.redPrint.darkContrastKept),
  ...figureColumns('visibilityRatio', (r) => r.redPrint.visibilityRatio),
  ...figureColumns('redPrintDeltaE00', (r) => r.redPrint.deltaE00),
  { name: 'widthMm', of: (r) => r.outline.widthMm },
  { name: 'heightMm', of: (r) => r.outline.heightMm },
  { name: 'sizeKnown', of: (r) => r.outline.sizeKnown },
  { name: 'pxPerMm', of: (r) => r.outline.pxPerMm },
  { name: 'tiltDeg', of: (r) => r.outline.tiltDeg },
  { name: 'glowShare', of: (r) => r.outline.glowShare },
  { name: 'exposureS', of: (r) => photoOf(r)?.camera.exposureS },
  { name: 'fNumber', of: (r) => photoOf(r)?.camera.fNumber },
  { name: 'iso', of: (r) => photoOf(r)?.camera.iso },
  { name: 'sha256', of: (r) => photoOf(r)?.sha256 },
  { name: 'gates', of: (r) => r.gates.map((gate) => `${gate.level}:${gate.code}`).join(' ') },
];

/** The first line of the readings CSV, as a list. */
export const csvHeader: readonly string[] = [
  'name',
  'window',
  'file',
  ...columns.map((column) => column.name),
  'role',
  'error',
];

/** One field: quoted when it holds a comma, a quotation mark or a line end; missing = empty. @source RFC 4180 @rule CL7 */
export function csvField(cell: Cell): string {
  if (cell === null || cell === undefined) return '';
  const text = typeof cell === 'number' ? String(roundedNumber(cell)) : String(cell);
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

function cellsOf({ role, entry }: ReadingRow): Cell[] {
  if ('error' in entry) return ['', '', entry.file, ...columns.map(() => null), role, entry.error.code];
  return [entry.name, entry.window, photoOf(entry)?.file, ...columns.map((column) => column.of(entry)), role, ''];
}

/** The readings as a table: a header and a row a reading; a failed photo has its error's code and nothing else. @rule CL7 */
export function csvText(rows: readonly ReadingRow[]): string {
  const lines = [csvHeader, ...rows.map(cellsOf)].map((cells) => cells.map(csvField).join(','));
  return `${lines.join('\n')}\n`;
}
