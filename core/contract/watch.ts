import type { CarriedOutline } from './carry';
import type { BenchError, BenchPhoto, PhotoAsked, PhotoId } from './bench';

/** A photo of the watched folder that could not be laid on the bench, and why. */
export interface NotTaken {
  readonly name: string;
  readonly error: BenchError;
}

/** A folder whose new photos are laid on the bench by themselves. The page learns its name, not where it lies. */
export interface WatchShown {
  readonly folder: string;
  /** Why it cannot be looked at now: a sentence without its full stop. It is taken up again when it is back; null: it is there. */
  readonly gone: string | null;
  /** Photos that lay there before the watch began; they are left alone. */
  readonly before: number;
  readonly laid: number;
  /** Files with the same content as one that was laid already. */
  readonly repeated: number;
  /** Files that are no photos by their ending. */
  readonly others: number;
  /** Names of photos that are still being written, or wait for their turn. */
  readonly arriving: readonly string[];
  readonly notTaken: readonly NotTaken[];
}

export interface WatchRead {
  /** null: no folder is watched. */
  readonly watch: WatchShown | null;
  /** Photos on the bench that the watch has laid since `after`, in the order in which they came. */
  readonly photos: readonly BenchPhoto[];
  /** What to give as `after` next time. */
  readonly upTo: number;
}

/** What the page may ask about the watched folder, and what a photo that arrives needs. */
export interface WatchVerbs {
  /** @param after  0: from the beginning */
  readonly watchRead: { readonly asks: { readonly after: number }; readonly answers: WatchRead };
  /** Lets the user choose the folder in the host's own dialog; null: none was chosen. */
  readonly watchChoose: { readonly asks: Record<string, never>; readonly answers: WatchShown | null };
  readonly watchStop: { readonly asks: Record<string, never>; readonly answers: null };
  /** Where the window of one photo lies in another. The first photo's corners must be given. */
  readonly carryOutline: {
    readonly asks: { readonly from: PhotoAsked; readonly to: PhotoId };
    readonly answers: CarriedOutline;
  };
}
