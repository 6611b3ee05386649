import type { Figure } from '../../contract/figure';
import type { FailedReading, Reading } from '../../contract/readings';
import { roundedNumber } from './rounded';

type Cell = string | number | boolean | null | undefined;

/** One reading, or one photo that failed, and whether it is the reference's. */
export interface ReadingRow {
  readonly role: 'trial' | 'reference';
  readonly entry: Reading | FailedReading;
  /** The trial that a failed photo belongs to; its entry knows only the file. */
  readonly failedAs?: string;
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

/** Words go with their figure: those of a refusal stand in the column of the reason. */
const wordsWith = (given: Figure, words: string): string | null => (given.value === null ? null : words);

/** How many spots of a kind; empty when the photo could not be searched, which is not 0. */
function spotCount(reading: Reading, kind: 'hot' | 'dark'): number | null {
  return reading.spotsReason === undefined ? reading.spots.filter((spot) => spot.kind === kind).length : null;
}

const photoOf = (reading: Reading): Reading['photos'][number] | undefined => reading.photos[0];

/** In this order, one by one, in every version: new columns go to the end. */
const columns: readonly Column[] = [
  ...figureColumns('score', (r) => r.evenness.score),
  { name: 'evennessWords', of: (r) => wordsWith(r.evenness.score, r.evenness.words) },
  ...figureColumns('redPrintIndex', (r) => r.redPrint.index),
  { name: 'redPrintIndexAgainst', of: (r) => r.redPrint.indexAgainst },
  { name: 'redPrintWords', of: (r) => wordsWith(r.redPrint.index, r.redPrint.words) },
  ...figureColumns('toReferenceUv', (r) => r.colour.toReferenceUv),
  { name: 'colourVerdict', of: (r) => wordsWith(r.colour.x, r.colour.verdict) },
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
  { name: 'hotSpots', of: (r) => spotCount(r, 'hot') },
  { name: 'darkSpots', of: (r) => spotCount(r, 'dark') },
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

/** Added after role and error, which keep their places. */
const laterColumns: readonly Column[] = [
  { name: 'scoreReason', of: (r) => r.evenness.score.reason },
  { name: 'redPrintReason', of: (r) => r.redPrint.index.reason },
  { name: 'colourReason', of: (r) => r.colour.x.reason },
  { name: 'spotsReason', of: (r) => r.spotsReason },
];

/** The first line of the readings CSV, as a list. */
export const csvHeader: readonly string[] = [
  'name',
  'window',
  'file',
  ...columns.map((column) => column.name),
  'role',
  'error',
  ...laterColumns.map((column) => column.name),
];

/** One field: quoted when it holds a comma, a quotation mark or a line end; missing = empty. @source RFC 4180 @rule CL7 */
export function csvField(cell: Cell): string {
  if (cell === null || cell === undefined) return '';
  const text = typeof cell === 'number' ? String(roundedNumber(cell)) : String(cell);
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

function cellsOf({ role, entry }: ReadingRow): Cell[] {
  const empty = (list: readonly Column[]): Cell[] => list.map(() => null);
  if ('error' in entry) {
    return ['', '', entry.file, ...empty(columns), role, entry.error.code, ...empty(laterColumns)];
  }
  const of = (list: readonly Column[]): Cell[] => list.map((column) => column.of(entry));
  return [entry.name, entry.window, photoOf(entry)?.file, ...of(columns), role, '', ...of(laterColumns)];
}

/** The readings as a table: a header and a row a reading; a failed photo has its error's code and nothing else. @rule CL7 */
export function csvText(rows: readonly ReadingRow[]): string {
  const lines = [csvHeader, ...rows.map(cellsOf)].map((cells) => cells.map(csvField).join(','));
  return `${lines.join('\n')}\n`;
}
