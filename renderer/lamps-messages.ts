import type { Plane } from '../core/base/plane';
import type { Figure } from '../core/contract/figure';
import type { ErrorEntry } from '../core/contract/readings';

/** One lamp as the photo shows it that was taken with it alone. */
export interface LampAlone {
  readonly name: string;
  readonly score: Figure;
  /** 4 cells a mm; NaN where no glow. */
  readonly glow: Plane;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly isExposureNormalised: boolean;
}

export type ToLampsWorker =
  | { readonly type: 'lamps'; readonly lamps: readonly LampAlone[] }
  /** Currents over those of the photos. */
  | { readonly type: 'ratios'; readonly ratios: readonly number[] };

export type FromLampsWorker =
  | { readonly type: 'sum'; readonly ratios: readonly number[]; readonly evenness: Figure; readonly light: Plane; readonly cellsPerMm: number }
  | { readonly type: 'best'; readonly ratios: readonly Figure[]; readonly evenness: Figure }
  | { readonly type: 'refused'; readonly error: ErrorEntry }; // prettier-ignore
