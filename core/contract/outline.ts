import type { WindowPoint } from '../base/points';

/** The outline of the glow inside the window's bounding box (0,0)..(widthMm,heightMm). */
export type OutlineShape =
  | { readonly kind: 'rectangle' }
  | { readonly kind: 'ellipse'; readonly cutMm?: readonly WindowPoint[] }
  | { readonly kind: 'polygon'; readonly pointsMm: readonly WindowPoint[] };
