import type { Figure } from './figure';
import type { ErrorEntry } from './readings';

export const shadeStyles = ['halftone', 'contours'] as const;
export type ShadeStyle = (typeof shadeStyles)[number];

/** How a shade may come to be mounted: at 0.7 of the stated gap, at 1.3 of it, or 1 mm to one side. */
export type ShadeMount = 'as-planned' | 'nearer' | 'farther' | 'aside';

/** What `evendial shade --json` prints. */
export interface ShadeDocument {
  readonly format: 'evendial-shade';
  readonly version: 1;
  /** mm; null: not known. */
  readonly gapMm: number | null;
  readonly style: ShadeStyle;
  /** Distance of the dots, mm; null for contours and where no sheet was made. */
  readonly pitchMm: number | null;
  readonly evennessBefore: Figure;
  /** The worst of gap x 0.7, 1, 1.3 and of a shade 1 mm aside. */
  readonly evennessAfter: Figure;
  /** Of these the one that makes the glow least even; null where nothing is forecast. */
  readonly worstMount: ShadeMount | null;
  /** At the stated gap, on its marks. */
  readonly evennessOnMarks: Figure;
  /** Share of the mean light that the shade takes away, 0..1; null when there is no shade. */
  readonly lightLoss: number | null;
  readonly transmissionMin: number | null;
  /** CSV of the transmission; null when there is no shade. */
  readonly transmissionMap: string | null;
  readonly cautions: readonly string[];
  readonly refusal?: ErrorEntry;
}
