import type { RoomKind } from '../../contract/light';
import type { DarkRim } from '../dark-rim';
import type { PhotoChecks } from '../photo-checks';

/** What one photo of one window shows, as far as the gates ask for it. Shares are 0..1 of the glow unless said otherwise. */
export interface GateFacts {
  readonly redClippedShare: number;
  readonly greenClippedShare: number;
  readonly blueClippedShare: number;
  /** Glow whose sRGB-encoded luminance lies under code 8 of 255. */
  readonly nearBlackShare: number;
  /** Median linear luminance of the glow, 1 = full scale. */
  readonly medianRelLuminance: number;
  /** Standard deviation of ln L from cell to cell (0.25 mm), slow changes removed. */
  readonly cellNoise: number;
  /** Photo pixels a mm along the shorter-scaled axis. */
  readonly pxPerMm: number;
  /** Glow over the area inside the outline without its border. */
  readonly glowShare: number;
  readonly glowCells: number;
  readonly longSideMm: number;
  readonly sizeKnown: boolean;
  readonly tiltDeg: number;
  /** Longer side of the window in the photo over the longer side of the frame. */
  readonly viewShare: number;
  /** |side ratio from the corners / stated side ratio - 1|; null when the size is not known. */
  readonly aspectError: number | null;
  /** The stated size fits when width and height are exchanged. */
  readonly isSizeSwapped: boolean;
  /** Of the search that placed the corners; null when they were given. */
  readonly searchConfidence: number | null;
  readonly darkRim: DarkRim;
  /** The same with what was taken for print: a frame may be. */
  readonly printedRim: DarkRim;
  /** The user says that the codes are light, of a file that a camera has put through a curve. */
  readonly isLinearJpeg: boolean;
  readonly checks: PhotoChecks;
  readonly exposureKnown: boolean;
  readonly whiteBalance: 'manual' | 'auto' | 'unknown';
  readonly colourSpaceAssumed: boolean;
  readonly outsideGamutShare: number;
  readonly room: RoomKind;
  /** A linear file, or a stated encoding: what a dim light is in a plain JPEG, an unknown tone curve hides in part. */
  readonly isResponseKnown: boolean;
  /** Room light over lamp light on the glow, from a lamp-off photo; null without one. */
  readonly ambientShare: number | null;
  /** Where the print mask came from; null when there is no print. */
  readonly printMaskFrom: 'photo' | 'other' | null;
  /** What the print was taken for; null when that could not be decided. */
  readonly polarity: 'dark' | 'none' | 'light' | null;
  /** Why the window could not be registered to the series' first photo; null: it was, or there was none. */
  readonly notRegistered: string | null;
  /** The print photo that could not be laid on the window, as the user called it. */
  readonly unusedPrintPhoto: string | null;
}
