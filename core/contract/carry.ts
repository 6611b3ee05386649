import type { Corners } from '../base/points';
import type { PhotoRef, WindowInPhoto } from './measure';

/** A window whose place in one photo is known, and another photo in which it is wanted. */
export interface CarryRequest {
  readonly from: { readonly photo: PhotoRef; readonly window: WindowInPhoto & { readonly corners: Corners } };
  readonly to: PhotoRef;
}

/** What of the light is known whether the outline was carried or not. */
interface SeenLight {
  /**
   * Mean light in the window's place, over that in the first photo, each in the unit of its exposure when both are known;
   * null: there is no such place, or no light in the first.
   */
  readonly lightRatio: number | null;
  /** So little that the lamp may be off. */
  readonly isDark: boolean;
}

/** Where the window lies in the other photo. */
export type CarriedOutline = SeenLight &
  (
    | {
        /**
         * By the print; in a window without print, by a search that found it where it was; in a photo too dark to find anything, by
         * the place where it would be had the camera stood still.
         */
        readonly by: 'print' | 'search' | 'place';
        /** Of the other photo, its own pixels. */
        readonly cornersPx: readonly (readonly [number, number])[];
      }
    /** A sentence without its full stop. */
    | { readonly by: null; readonly reason: string }
  );
