import type { ResponseTrust } from '../base/linear-photo';
import type { LightKind, RoomKind } from './light';
import type { CameraFacts } from './readings';

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

/** A doubt from the tone curve with its sign, since curves of one camera bend two photos alike; and from all else; k = 1. */
export interface SplitDoubt {
  readonly toneCurve: number;
  readonly others: number;
}

/** Of the red print what its figures do not tell. Doubts are without the camera's spectral share. */
export interface RedPrintFacts {
  readonly redness: SplitDoubt;
  readonly luminanceContrast: SplitDoubt;
  /** How well the marks are seen at all, in units of what is just seen. */
  readonly visibility: number;
  /** How much of a stroke's colour the eye's coarse colour channel leaves, 0..1. */
  readonly widthFactor: number;
}

/** What of a reading, beside its figures, is needed to compare it with another. */
export interface ComparableFacts {
  /** Of the photo in whose unit the light is; of a bracket the middle one. */
  readonly camera: CameraFacts;
  /** Mean light of the glow in that photo, 1 = full scale, whatever its checks refuse; null without glow. */
  readonly level: number | null;
  readonly basis: UncertaintyBasis;
  /** How the doubt about the tone curve moves the glow's colour in u' and v', k = 1; null without figures of colour. */
  readonly curveShift: { readonly u: number; readonly v: number } | null;
  /** null without figures of red print. */
  readonly redPrint: RedPrintFacts | null;
}
