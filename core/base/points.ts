/** A place in the upright photo, pixels; the first pixel's centre is (0.5, 0.5). */
export interface PhotoPoint {
  readonly column: number;
  readonly row: number;
}

/** A place on the window, mm from its top-left corner as one reads it, x right, y down. */
export interface WindowPoint {
  readonly xMm: number;
  readonly yMm: number;
}

/** The window's corners in the photo: top-left, top-right, bottom-right, bottom-left as one reads it. */
export type Corners = readonly [PhotoPoint, PhotoPoint, PhotoPoint, PhotoPoint];
