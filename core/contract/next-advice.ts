import type { Figure } from './figure';

export const suggestedActions = [
  'whiten-box',
  'wide-lamp',
  'move-back',
  'turn-or-move',
  'diffuse',
  'add-lamp',
  'shade',
] as const;
export type SuggestedAction = (typeof suggestedActions)[number];

export interface Suggestion {
  readonly action: SuggestedAction;
  /** What to do, in words. */
  readonly words: string;
  readonly why: string;
  /** Points of the score. */
  readonly gain: Figure;
  readonly effort: 'minutes' | 'an hour' | 'an evening';
  /** How far the gain can be trusted. */
  readonly limits: string;
  /** What to heed, whole: that of the document and its own. */
  readonly caution: string;
  /** What to heed with this suggestion beyond the document's cautions. */
  readonly ownCaution: string;
  /** Places in mm and the like. */
  readonly details: Readonly<Record<string, number>>;
}

/** What `evendial next --json` prints. */
export interface NextDocument {
  readonly format: 'evendial-next';
  readonly version: 1;
  readonly suggestions: readonly Suggestion[];
  /** What to heed with each of them; empty where there are none. */
  readonly cautions: readonly string[];
  /** Why there are none; null when there are some. */
  readonly note: string | null;
}
