import type { Mask, Plane } from '../base/plane';

/**
 * The window seen straight on, in linear light. Cell (i, j) covers [i/p, (i+1)/p) x [j/p, (j+1)/p) mm with
 * p = pxPerMm; width = ceil(p * widthMm), height = ceil(p * heightMm). NaN where the photo does not reach.
 */
export interface RectifiedWindow {
  readonly pxPerMm: number;
  readonly widthMm: number;
  readonly heightMm: number;
  /** Linear sRGB primaries, D65, 1 = full scale. */
  readonly red: Plane;
  readonly green: Plane;
  readonly blue: Plane;
  /** 1 where any photo pixel that the cell samples has the flag. */
  readonly redClipped: Mask;
  readonly greenClipped: Mask;
  readonly blueClipped: Mask;
  readonly outsideGamut: Mask;
}

/** Where print was found, on the rectified window's grid. */
export interface PrintMask {
  /** Before dilation. */
  readonly dark: Mask;
  readonly red: Mask;
  /** Dark or red, dilated: what must not count as glow. */
  readonly covered: Mask;
}
