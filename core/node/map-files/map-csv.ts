import { assertSameShape, type Plane } from '../../base/plane';
import type { ReadingMaps } from '../../contract/measure';
import { roundedNumber } from '../cli/rounded';

const cellsPerMm = 4;

type MapFacts = Pick<ReadingMaps, 'widthMm' | 'heightMm' | 'exposureNormalised'>;

function firstLine(maps: MapFacts, unit: string, pxPerMm = cellsPerMm): string {
  const size = `width_mm=${roundedNumber(maps.widthMm)} height_mm=${roundedNumber(maps.heightMm)}`;
  const exposure = `exposure_normalised=${maps.exposureNormalised ? 1 : 0}`;
  return `# format=evendial-map version=1 px_per_mm=${pxPerMm} ${size} unit=${unit} ${exposure}`;
}

function tableOf(plane: Plane, cellText: (index: number) => string): string[] {
  return Array.from({ length: plane.height }, (_, row) =>
    Array.from({ length: plane.width }, (_column, column) => cellText(row * plane.width + column)).join(','),
  );
}

function planeCsv(plane: Plane, facts: MapFacts, unit: string, pxPerMm = cellsPerMm): string {
  const { values } = plane;
  const cell = (i: number): string => (Number.isNaN(values[i]) ? '' : String(roundedNumber(values[i])));
  return `${[firstLine(facts, unit, pxPerMm), ...tableOf(plane, cell)].join('\n')}\n`;
}

/** `NAME.glow-luminance.csv`: the lamp's light a cell, empty where no glow is. @rule MP2 */
export function glowLuminanceCsv(maps: ReadingMaps): string {
  return planeCsv(maps.glowLuminance, maps, 'relative');
}

/** `NAME-minus-NAME.difference.csv`: ln of the ratio of shares, so no exposure is in it; empty where no glow is. @rule PR7 */
export function differenceCsv(difference: Plane, size: Pick<ReadingMaps, 'widthMm' | 'heightMm'>): string {
  return planeCsv(difference, { ...size, exposureNormalised: false }, 'ln_ratio');
}

/** `FILE.transmission.csv`: what a shade lets through, 0..1. @rule AV9 */
export function transmissionCsv(
  plane: Plane,
  pxPerMm: number,
  size: Pick<ReadingMaps, 'widthMm' | 'heightMm'>,
): string {
  return planeCsv(plane, { ...size, exposureNormalised: false }, 'transmission', pxPerMm);
}

/** `NAME.predicted-luminance.csv`: light as it was forecast, in the unit of the map that it was forecast from. @rule PL6 */
export function predictedCsv(plane: Plane, pxPerMm: number, size: Pick<ReadingMaps, 'widthMm' | 'heightMm'>): string {
  return planeCsv(plane, { ...size, exposureNormalised: true }, 'relative', pxPerMm);
}

/** `NAME.chromaticity.csv`: u' and v' a cell with a blank between them, empty where no glow is. @rule MP2 */
export function chromaticityCsv(maps: ReadingMaps): string {
  const { uPrime, vPrime } = maps;
  assertSameShape(uPrime, vPrime);
  const cell = (i: number): string => {
    if (Number.isNaN(uPrime.values[i]) || Number.isNaN(vPrime.values[i])) return '';
    return `${roundedNumber(uPrime.values[i])} ${roundedNumber(vPrime.values[i])}`;
  };
  return `${[firstLine(maps, 'uv1976'), ...tableOf(uPrime, cell)].join('\n')}\n`;
}
