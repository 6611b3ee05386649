/**
 * What a step of colour is, in one sentence.
 *
 * @source the bands of CO11
 * @rule CO13
 */
export const stepNote =
  "One step of colour is 0.0011 in u'v': one is not seen even side by side, up to three look close, up to five show side by " +
  'side, and more is another colour.';

/** The same beneath words that count in steps; null beneath others. @rule CO13 */
export function stepNoteFor(words: string): string | null {
  return /\bsteps?\b/.test(words) ? stepNote : null;
}
