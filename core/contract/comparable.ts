import type { ResponseTrust } from '../base/linear-photo';
import type { LightKind, RoomKind } from './light';

/** What the plus-minus of every figure of one reading rests on. */
export interface UncertaintyBasis {
  readonly response: ResponseTrust;
  /** A phone or pocket camera, whose plain photos are usually mapped differently from place to place without a tag. */
  readonly isSmallCamera: boolean;
  readonly light: LightKind;
  readonly room: RoomKind;
  /** From a lamp-off photo; null without one. */
  readonly ambientShare: number | null;
  /** Longer side of the window in the photo over the longer side of the frame. */
  readonly viewShare: number;
  readonly printMaskFrom: 'photo' | 'other' | null;
  /** Print (dilated) over the area inside the outline. */
  readonly printShare: number;
  /** Green (or the channel used) clipped, share of the glow. */
  readonly clippedShare: number;
  /** Standard deviation of ln L from cell to cell. */
  readonly cellNoise: number;
  readonly pxPerMm: number;
  readonly whiteBalance: 'manual' | 'auto' | 'unknown';
}

/** What of a reading, beside its figures, is needed to compare it with another. */
export interface ComparableFacts {
  readonly basis: UncertaintyBasis;
}
