import { noReference, type Figure } from '../../contract/figure';
import type { Reading } from '../../contract/readings';
import { hatched } from '../../display/figure-text';
import { hangingLines } from './wrap';

const notBuiltYet = /\s+(?:is|are) not built yet\b.*$/;

/** Whether a reason says that this version cannot give a figure for any photo, rather than that this photo cannot. */
export function saysNotBuilt(reason: string | undefined): boolean {
  return reason !== undefined && notBuiltYet.test(reason);
}

/** A figure that this version cannot give for any photo, or that needs a photo of the filament which nobody named. */
export function isLeftOut(figure: Figure): boolean {
  return figure.value === null && (figure.reason === noReference || saysNotBuilt(figure.reason));
}

/** Reasons of everything in a reading that may be missing; the leading figures with their names. */
function reasonsOf({ evenness, luminance, colour, redPrint, spotsReason }: Reading): [string | undefined, string][] {
  const rest = [
    evenness.score,
    evenness.toReference,
    luminance.ofReference,
    colour.toReferenceDeltaE00,
    redPrint.redness,
    redPrint.darkContrastKept,
    redPrint.visibilityRatio,
  ];
  return [
    [redPrint.index.reason, 'red print'],
    [colour.toReferenceUv.reason, 'colour distance'],
    ...rest.map(({ reason }): [string | undefined, string] => [reason, '']),
    [spotsReason, ''],
  ];
}

/**
 * What this version cannot give yet, told once for many readings: `judging red among lit figures (red print)`.
 *
 * @returns an empty list when everything is built
 * @rule CL13
 */
export function notBuiltParts(readings: readonly Reading[]): string[] {
  const figuresOf = new Map<string, Set<string>>();
  for (const [reason, name] of readings.flatMap(reasonsOf)) {
    if (reason === undefined || !saysNotBuilt(reason)) continue;
    const part = reason.replace(notBuiltYet, '');
    const figures = figuresOf.get(part) ?? new Set();
    if (name !== '') figures.add(name);
    figuresOf.set(part, figures);
  }
  return [...figuresOf].map(([part, figures]) => (figures.size > 0 ? `${part} (${[...figures].join(', ')})` : part));
}

/** The closing lines of a table: what the hatching means, where there is any, and what is left out for all. @rule CL13 */
export function footerLines(readings: readonly Reading[], table: string): string[] {
  const parts = notBuiltParts(readings);
  return [
    ...(table.includes(hatched)
      ? [`  ${hatched} = no figure, for the reason beside it (of a summary: in the reading above)`]
      : []),
    ...(readings.some(({ evenness }) => evenness.toReference.reason === noReference)
      ? hangingLines('  Not compared: ', 'name the photo of the filament lamp with --reference, or in a series file.')
      : []),
    ...(parts.length > 0 ? hangingLines('  Not built yet: ', `${parts.join('; ')}.`) : []),
  ];
}
