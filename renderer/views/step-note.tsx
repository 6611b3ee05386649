import type { JSX } from 'preact';
import { stepNoteFor } from '../../core/display/step-note';

/** Beneath words that count in steps of colour: what one is. */
export function StepNote({ words }: { readonly words: string }): JSX.Element | null {
  const note = stepNoteFor(words);
  return note === null ? null : <p class="hint step-note">{note.replace("u'v'", 'u′v′')}</p>;
}
