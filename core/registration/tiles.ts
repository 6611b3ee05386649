import type { Plane } from '../base/plane';
import { alignPictures } from './align-pictures';
import type { Slopes } from './derivative-sums';
import { frameOf, type Warp } from './warp';

/** Parts of the window across and down. */
const across = 3;
const down = 2;
/** A part with print has at least this standard deviation of contrast (ln units): noise and dust stay below. */
const leastDeviation = 0.05;
/** So many of the six parts must have print; with fewer, the far corners would hang on nothing. */
const leastParts = 4;

interface Part {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

function partsOf({ width, height }: Plane): Part[] {
  return Array.from({ length: across * down }, (_, i) => {
    const [column, row] = [i % across, Math.floor(i / across)];
    return {
      left: Math.floor((column * width) / across),
      right: Math.floor(((column + 1) * width) / across),
      top: Math.floor((row * height) / down),
      bottom: Math.floor(((row + 1) * height) / down),
    };
  });
}

/** The plane where the part is, NaN elsewhere. */
function only({ width, height, values }: Plane, { left, top, right, bottom }: Part): Plane {
  const kept = new Float32Array(width * height).fill(NaN);
  for (let row = top; row < bottom; row++) {
    kept.set(values.subarray(row * width + left, row * width + right), row * width + left);
  }
  return { width, height, values: kept };
}

function deviationIn({ width, values }: Plane, { left, top, right, bottom }: Part): number {
  let [count, sum, squares] = [0, 0, 0];
  for (let row = top; row < bottom; row++) {
    for (let column = left; column < right; column++) {
      const value = values[row * width + column];
      if (Number.isNaN(value)) continue;
      count++;
      sum += value;
      squares += value * value;
    }
  }
  return count === 0 ? 0 : Math.sqrt(Math.max(0, squares / count - (sum / count) ** 2));
}

const printedParts = (contrast: Plane): Part[] =>
  partsOf(contrast).filter((part) => deviationIn(contrast, part) >= leastDeviation);

/**
 * Whether print is spread over the window: four of its 3 x 2 parts or more have a contrast with a standard deviation of
 * 0.05 (ln units). With less the far corners would hang on nothing.
 *
 * @param contrast blurred as for the last refinement; NaN = not measured
 * @source our own choice
 * @rule RG5
 */
export function hasPrintThroughout(contrast: Plane): boolean {
  return printedParts(contrast).length >= leastParts;
}

/**
 * What is left between two registered prints: each of the 3 x 2 parts with print is shifted until it fits best by itself;
 * rms of the lengths of these shifts, in cells.
 *
 * @param first  the reference's contrast, NaN = not compared
 * @param second the photo's, blurred alike
 * @param warp   the registration
 * @source our own choice
 * @rule RG5
 */
export function leftoverShift(first: Plane, second: Slopes, warp: Warp): number {
  const frame = frameOf(first.width, first.height);
  const squares = printedParts(first).map((part) => {
    const alone = alignPictures(only(first, part), second, warp, frame, 'shift');
    return ((alone.warp[2] - warp[2]) ** 2 + (alone.warp[5] - warp[5]) ** 2) * frame.half ** 2;
  });
  return Math.sqrt(squares.reduce((sum, square) => sum + square, 0) / squares.length);
}
