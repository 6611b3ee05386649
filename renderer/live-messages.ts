import type { LinearPart } from '../core/contract/bench';
import type { Corners } from '../core/base/points';
import type { Picture } from '../core/live/picture';
import type { LiveSettings } from '../core/live/live-window';

/** What the page tells its worker: the light round the window once, the settings when they change, then corner by corner. */
export type ToLiveWorker =
  | { readonly type: 'part'; readonly part: LinearPart }
  | { readonly type: 'settings'; readonly settings: LiveSettings; readonly corners: Corners }
  | { readonly type: 'look'; readonly corners: Corners };

export interface LiveLooked {
  readonly score: number | null;
  /** null when the corners cannot be those of a window. */
  readonly picture: Picture | null;
}
