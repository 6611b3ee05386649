/**
 * A picture of one quantity: `values` row by row, `width * height` of them, NaN = not measured.
 * Cell (column c, row r) covers [c, c+1) x [r, r+1).
 */
export interface Plane {
  readonly width: number;
  readonly height: number;
  readonly values: Float32Array;
}

/** A yes/no picture of the same layout: 1 = yes, 0 = no. */
export interface Mask {
  readonly width: number;
  readonly height: number;
  readonly values: Uint8Array;
}

/** A new plane filled with one value (default 0). */
export function createPlane(width: number, height: number, fill = 0): Plane {
  const values = new Float32Array(width * height);
  if (fill !== 0) values.fill(fill);
  return { width, height, values };
}

/** A new mask filled with one value (default 0). */
export function createMask(width: number, height: number, fill: 0 | 1 = 0): Mask {
  const values = new Uint8Array(width * height);
  if (fill) values.fill(1);
  return { width, height, values };
}

/** Stops loudly when two pictures differ in shape: a defect, not a user's error. */
export function assertSameShape(
  a: { readonly width: number; readonly height: number },
  b: { readonly width: number; readonly height: number },
): void {
  if (a.width !== b.width || a.height !== b.height) {
    throw new RangeError(`shapes differ: ${a.width}x${a.height} and ${b.width}x${b.height}`);
  }
}
