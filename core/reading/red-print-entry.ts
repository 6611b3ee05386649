import { figure, missing, noReference, type Figure } from '../contract/figure';
import type { RedPrintFacts } from '../contract/comparable';
import type { Gate } from '../contract/gates';
import type { RedPrintEntry } from '../contract/readings';
import type { GlowView } from './glow-view';
import { redIndexWords, typicalIndex } from './red-index';
import { redPrintFigures } from './red-print';
import { redPrintUncertainty } from './red-print-uncertainty';
import { coverageFactor, type UncertaintyBasis } from './uncertainty';

export interface RedPrintInput {
  readonly view: GlowView;
  readonly basis: UncertaintyBasis;
  readonly viewingDistanceMm: number;
  /** Why no figure of the red print may be given; null when they may. */
  readonly refusal: string | null;
}

type Given = Pick<RedPrintEntry, 'redness' | 'luminanceContrast' | 'deltaE00' | 'index' | 'indexAgainst' | 'words'>;

function entryOf(view: GlowView, strokeMm: number | null, given: Given): RedPrintEntry {
  const later = missing(noReference);
  return { maskFrom: view.printMaskFrom, strokeMm, ...given, darkContrastKept: later, visibilityRatio: later };
}

function withoutFigures(view: GlowView, reason: string, strokeMm: number | null = null): RedPrintEntry {
  const none = missing(reason);
  return entryOf(view, strokeMm, {
    redness: none,
    luminanceContrast: none,
    deltaE00: none,
    index: none,
    indexAgainst: null,
    words: `no verdict: ${reason}`,
  });
}

/** What the search for red print found to say beside the figures. */
function gateOf(code: 'RED_NOT_FOUND' | 'STROKE_TOO_THIN', reason: string): Gate {
  const isThin = code === 'STROKE_TOO_THIN';
  const message = `${reason.charAt(0).toUpperCase()}${reason.slice(1)}.`;
  const remedy = isThin
    ? 'Go closer or use the longer lens, so that a red line is six pixels wide or more.'
    : 'Nothing to do if there is none; under light of one colour red looks like dark print: paint it in a series file.';
  return { code, level: isThin ? 'refuse' : 'note', message, remedy, value: null, affects: ['redPrint'] };
}

/**
 * The figures of the red print that one photo gives: redness, luminance contrast and colour difference against the local glow.
 * Without the filament's photo the index is against a typical one, and says so.
 *
 * @returns the contract's entry, the gate that it raises (none: null), and what comparing needs (without figures: null)
 * @rule RD10
 */
export function redPrintEntry(input: RedPrintInput): {
  entry: RedPrintEntry;
  gate: Gate | null;
  facts: RedPrintFacts | null;
} {
  const { view, basis, viewingDistanceMm, refusal } = input;
  if (view.polarity === 'light') {
    return { entry: withoutFigures(view, 'judging red among lit figures is not built yet'), gate: null, facts: null };
  }
  if (refusal !== null) return { entry: withoutFigures(view, refusal), gate: null, facts: null };
  const result = redPrintFigures(view, { photoPxPerMm: basis.pxPerMm, viewingDistanceMm });
  if (result.kind !== 'figures') {
    const strokeMm = result.kind === 'too-thin' ? result.strokeMm : null;
    const gate = gateOf(result.code, result.reason);
    return { entry: withoutFigures(view, result.reason, strokeMm), gate, facts: null };
  }
  const { figures } = result;
  const u = redPrintUncertainty(figures, basis);
  const given = (value: number, uncertainty: number): Figure => figure(value, coverageFactor * Math.abs(uncertainty));
  const redness = { value: figures.redness, uncertainty: Math.abs(u.redness) };
  const index = typicalIndex(redness, basis.room, basis.ambientShare !== null);
  const entry = entryOf(view, figures.strokeMm, {
    redness: given(figures.redness, u.redness),
    luminanceContrast: given(figures.luminanceContrast, u.luminanceContrast),
    deltaE00: given(figures.deltaE00, u.deltaE00),
    index,
    indexAgainst: 'typical',
    words: redIndexWords(index.value ?? 0, 'typical'),
  });
  const { visibility, widthFactor } = figures;
  return { entry, gate: null, facts: { ...u.beyondCamera, visibility, widthFactor } };
}
