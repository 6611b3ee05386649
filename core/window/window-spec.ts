import type { WindowPoint } from '../base/points';
import type { PrintKind } from '../contract/light';

/** The outline of the glow inside the window's bounding box (0,0)..(widthMm,heightMm). */
export type OutlineShape =
  | { readonly kind: 'rectangle' }
  | { readonly kind: 'ellipse'; readonly cutMm?: readonly WindowPoint[] }
  | { readonly kind: 'polygon'; readonly pointsMm: readonly WindowPoint[] };

/** One lit opening of a unit, as the user describes it. */
export interface WindowSpec {
  readonly name: string;
  readonly widthMm: number;
  readonly heightMm: number;
  /** false: 60 mm wide was assumed, so mm figures are relative. */
  readonly sizeKnown: boolean;
  readonly shape: OutlineShape;
  readonly print: PrintKind;
  /** Polygons that never count as glow: a pivot, a screw. */
  readonly leaveOut: readonly (readonly WindowPoint[])[];
  /** Print that the user painted where the engine cannot see it. */
  readonly paintedRed: readonly (readonly WindowPoint[])[];
  readonly paintedDark: readonly (readonly WindowPoint[])[];
}
