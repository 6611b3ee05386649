import { assumedSizeCaution } from '../assumed-size';
import type { Figure } from '../../contract/figure';
import type { ErrorEntry } from '../../contract/readings';
import type { ShadeStyle } from '../../contract/shade-advice';
import { leastScoreDifference, sharedErrorOfLikePhotos, tellApart } from '../../compare/pairs';
import { coverageFactor } from '../../reading/uncertainty';

/** Coarser dots are seen as dots, finer ones run together in an office printer, mm. */
const [finestPitchMm, coarsestPitchMm] = [0.4, 1] as const;

/**
 * Distance of the dots of a halftone; null when the gap is too small to blur any.
 *
 * @returns half of the gap, 0.4..1 mm
 * @source our own experiment: at a gap of two pitches a checker's ripple is under 1 %, at one 11 %; 0.4 mm: our own choice
 * @rule AV7
 */
export function pitchFor(gapMm: number): number | null {
  const pitch = Math.min(coarsestPitchMm, gapMm / 2);
  return pitch < finestPitchMm - 1e-9 ? null : pitch;
}

/** Whether an improvement of the score goes beyond what both figures leave open. @source PR1 @rule AV7 */
export function isGainSure(before: Figure, after: Figure): boolean {
  if (before.value === null || after.value === null) return false;
  const [a, b] = [before, after].map(({ value, plusMinus }) => ({
    value: value ?? 0,
    uncertainty: (plusMinus ?? 0) / coverageFactor,
  }));
  const { difference, toldApart } = tellApart(a, b, sharedErrorOfLikePhotos, leastScoreDifference);
  return toldApart && difference > 0;
}

/** Why no shade can be made for a reading at all; null when one can. @source our own choice @rule AV7 */
export function whyNoShade(before: Figure, gapMm: number | null, style: ShadeStyle): ErrorEntry | null {
  if (before.value === null) {
    const message = `the reading has no evenness score: ${before.reason ?? 'no reason given'}`;
    return { code: 'SHADE_WITHOUT_SCORE', message, remedy: 'Take the photo again as its photo checks say.' };
  }
  if (gapMm !== null && style === 'halftone' && pitchFor(gapMm) === null) {
    const message = `at a gap of ${gapMm} mm the dots of a halftone would be seen`;
    return {
      code: 'GAP_TOO_SMALL',
      message,
      remedy: 'Take --style contours, or mount the shade 0.8 mm or more behind.',
    };
  }
  return null;
}

export const gapUnknown: ErrorEntry = {
  code: 'GAP_UNKNOWN',
  message: 'without the gap between shade and scale its effect cannot be forecast',
  remedy: 'Measure the gap and give --gap MM. What is written is only the shape, as for a shade on the scale itself.',
};

export const noSureGain: ErrorEntry = {
  code: 'NO_SURE_GAIN',
  message: 'a shade would not make the glow more even by more than can be told apart',
  remedy: 'Leave it as it is, or move, turn or diffuse the lamps first.',
};

/** What goes with every shade. @source common practice @rule AV7 */
const shadeCautions: readonly string[] = [
  'Print at 100 per cent; the ruler on the sheet must measure 100 mm.',
  'Keep film and paper away from filament lamps: they char. Unplug the unit before you open it.',
  'A shade only takes light away: move, turn or diffuse the lamps first.',
  'Photograph the strip on an even light to see what your printer or pen lets through.',
];

/** What goes with a shade. @rule AV8, AV10 */
export const cautionsFor = (isSizeKnown: boolean): readonly string[] =>
  isSizeKnown ? shadeCautions : [assumedSizeCaution, ...shadeCautions];
