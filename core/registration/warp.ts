import type { ProjectiveMatrix } from '../window/homography';

/**
 * A way of bending one picture onto another: a place (x, y) of the first, measured from its middle in half lengths,
 * goes to ((1 + a) x + b y + c, d x + (1 + e) y + f) / (1 + g x + h y) in the second, [a..h] all 0 = stays where it is.
 */
export type Warp = readonly number[];

/** Which of the eight numbers may change: all, or the shift (c, f) alone. */
export const freeNumbers = { homography: [0, 1, 2, 3, 4, 5, 6, 7], shift: [2, 5] } as const satisfies Record<
  string,
  readonly number[]
>;
export type WarpModel = keyof typeof freeNumbers;

/** The middle of a picture and its half length, in the picture's own unit. */
export interface Frame {
  readonly middleX: number;
  readonly middleY: number;
  readonly half: number;
}

/** The warp that only shifts, by so many of the picture's units. @source algebra @rule RG2 */
export function shiftedBy(
  { columns, rows }: { readonly columns: number; readonly rows: number },
  { half }: Frame,
): Warp {
  return [0, 0, columns / half, 0, 0, rows / half, 0, 0];
}

export function frameOf(width: number, height: number): Frame {
  return { middleX: width / 2, middleY: height / 2, half: Math.max(width, height) / 2 };
}

/** The warp as a matrix on places in the frame's unit. @source algebra @rule RG2 */
export function matrixOfWarp([a, b, c, d, e, f, g, h]: Warp, { middleX, middleY, half }: Frame): ProjectiveMatrix {
  // From the frame's unit to half lengths, the warp, and back.
  const inner = [
    [(1 + a) / half, b / half, c - ((1 + a) * middleX + b * middleY) / half],
    [d / half, (1 + e) / half, f - (d * middleX + (1 + e) * middleY) / half],
    [g / half, h / half, 1 - (g * middleX + h * middleY) / half],
  ];
  const row = (line: number[], middle: number) => line.map((value, i) => half * value + middle * inner[2][i]);
  const all = [...row(inner[0], middleX), ...row(inner[1], middleY), ...inner[2]];
  return all as unknown as ProjectiveMatrix;
}
