import { cautionsFor, pitchFor } from '../../advice/shade/check-shade';
import type { ShadePlan } from '../../advice/shade/plan-shade';
import type { Figure } from '../../contract/figure';
import type { ShadeStyle } from '../../contract/shade-advice';
import { printable, shortFigure } from '../../display/figure-text';
import { mountWords } from '../../display/shade-words';
import { drawingSvg } from '../../sheet/html/drawing-svg';
import { shadeSheet } from '../../sheet/shade-sheet';

/** A planned shade and how its page is to be made. */
export interface ShadeFile {
  /** Of the reading. */
  readonly name: string;
  readonly before: Figure;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly isSizeKnown: boolean;
  readonly plan: ShadePlan;
  /** mm; null: not known. */
  readonly gapMm: number | null;
  readonly style: ShadeStyle;
  readonly isMirrored: boolean;
  readonly form: 'pdf' | 'svg';
  /** Of the program. */
  readonly version: string;
  readonly savedAt: string;
}

/** Distance of the dots; null for lines. The shape alone is drawn with the coarsest dots. @rule AV7 */
export function pitchOfShade({ style, gapMm }: Pick<ShadeFile, 'style' | 'gapMm'>): number | null {
  if (style === 'contours') return null;
  return gapMm === null ? 1 : pitchFor(gapMm);
}

function factsOf({ before, plan, gapMm, style }: ShadeFile): string[] {
  if (gapMm === null) return ['Gap not known: only the shape; no forecast.'];
  const loss = `${(100 * plan.lightLoss).toFixed(0)} %`;
  return [
    `For a gap of ${gapMm} mm between shade and scale, ${style === 'halftone' ? 'halftone' : 'contour lines: one layer of the pen more inside each'}.`,
    `Evenness ${shortFigure(before)} before, ${shortFigure(plan.evennessOnMarks)} with the shade on its marks; the light gets ${loss} less.`,
    `At worst ${shortFigure(plan.evennessAfter)}, ${mountWords[plan.worstMount]}.`,
  ];
}

/** The page of a shade, true to size. @rule AV8 */
export async function shadeFile(shade: ShadeFile): Promise<string | Buffer> {
  const { plan, widthMm, heightMm, isSizeKnown, isMirrored, name, form, version, savedAt } = shade;
  const { drawing } = shadeSheet({
    widthMm,
    heightMm,
    transmission: plan.transmission,
    pxPerMm: plan.pxPerMm,
    pitchMm: pitchOfShade(shade),
    isMirrored,
    title: `Shade for ${printable(name)}`,
    facts: factsOf(shade),
    cautions: cautionsFor(isSizeKnown),
  });
  if (form === 'svg') {
    return `${drawingSvg(drawing, new Map()).replace('<svg ', '<svg xmlns="http://www.w3.org/2000/svg" ')}\n`;
  }
  // Its letters and its writer are read only when a PDF is wanted.
  const { drawingPdf } = await import('./shade-pdf');
  return drawingPdf(drawing, { program: `Evendial ${version}`, savedAt });
}
