import type { Figure } from '../../../core/contract/figure';
import type { Forecast } from '../../advice-messages';

/** What can be tried on the measured light. */
export const tools = ['lamp', 'shade'] as const;
export type Tool = (typeof tools)[number];

export const toolWords: Readonly<Record<Tool, string>> = {
  lamp: 'Move or turn a lamp',
  shade: 'Shade',
};

/** What a tool shows: the light as it would be, and the change in words; null: nothing is changed yet. */
export interface Tried {
  readonly forecast: Forecast;
  readonly evenness: Figure;
  readonly what: string;
  /** The sliders have moved on. */
  readonly isBehind: boolean;
}
