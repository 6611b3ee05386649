import path from 'node:path';
import { shadeStyles, type ShadeStyle } from '../../contract/shade-advice';
import { readArguments, usageError } from './arguments';
import { numberOf, readChoice } from './option-values';

export interface ShadeOptions {
  readonly reading: string;
  /** mm; null: not known. */
  readonly gapMm: number | null;
  readonly targetPercent: number;
  readonly style: ShadeStyle;
  readonly isMirrored: boolean;
  readonly out: string;
  readonly kind: 'pdf' | 'svg';
  readonly json: boolean;
}

const rules = {
  command: 'shade',
  values: ['reading', 'gap', 'target', 'style', 'out'],
  flags: ['mirror', 'json'],
};

const mostGapMm = 20;

function readGap(text: string | undefined): number | null {
  if (text === undefined || text.trim().toLowerCase() === 'unknown') return null;
  const gap = numberOf(text.trim().replace(/\s*mm$/i, ''));
  if (gap !== null && gap >= 0 && gap <= mostGapMm) return gap;
  const remedy = `Give the gap between shade and scale in mm, 0 to ${mostGapMm}, as --gap 1.5.`;
  throw usageError(`--gap is ${JSON.stringify(text)}`, remedy, 'GAP_INVALID');
}

function readTarget(text = 'p20'): number {
  const percent = numberOf(text.trim().replace(/^p/i, ''));
  if (percent !== null && percent >= 1 && percent <= 90) return percent;
  const remedy = 'Give the light to be left as a percentile of the glow, p1 to p90, as --target p20.';
  throw usageError(`--target is ${JSON.stringify(text)}`, remedy, 'TARGET_INVALID');
}

function kindOf(out: string): 'pdf' | 'svg' {
  const ending = path.extname(out).toLowerCase();
  if (ending === '.pdf') return 'pdf';
  if (ending === '.svg') return 'svg';
  throw usageError(`--out is ${JSON.stringify(out)}`, 'Name a file that ends with .pdf or .svg.', 'OUT_INVALID');
}

/** The options of `evendial shade`. @throws AppError with the option @rule AV9 */
export function readShadeOptions(words: readonly string[]): ShadeOptions {
  const { values, flags, files } = readArguments(words, rules);
  if (files.length > 0) throw usageError(`shade takes no ${JSON.stringify(files[0])}`, "See 'evendial help shade'.");
  const [reading, out] = [values.get('reading'), values.get('out')];
  if (reading === undefined || out === undefined) {
    const which = reading === undefined ? '--reading READINGS.json[#NAME]' : '--out FILE.pdf';
    throw usageError(`shade needs ${which}`, "'evendial help shade' shows an example.");
  }
  return {
    reading,
    out,
    gapMm: readGap(values.get('gap')),
    targetPercent: readTarget(values.get('target')),
    style: readChoice('style', values.get('style') ?? 'halftone', shadeStyles),
    isMirrored: flags.has('mirror'),
    kind: kindOf(out),
    json: flags.has('json'),
  };
}
