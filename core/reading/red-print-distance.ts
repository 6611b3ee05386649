import { createMask, createPlane, type Mask, type Plane } from '../base/plane';

/** Steps from each cell of the mask up to the nearest cell of its column that is not; what lies outside is not. */
function verticalSteps({ width, height, values }: Mask): Int32Array {
  const steps = new Int32Array(values.length);
  for (let column = 0; column < width; column++) {
    let above = 0;
    for (let row = 0; row < height; row++) {
      const at = row * width + column;
      above = values[at] ? above + 1 : 0;
      steps[at] = above;
    }
    let below = 0;
    for (let row = height - 1; row >= 0; row--) {
      const at = row * width + column;
      below = values[at] ? below + 1 : 0;
      if (below < steps[at]) steps[at] = below;
    }
  }
  return steps;
}

/**
 * Distance from the middle of each cell of a mask to the middle of the nearest cell that does not belong to it, in cells;
 * 0 outside the mask. What lies outside the plane does not belong to it.
 *
 * @source exact Euclidean distance by columns, then rows; common practice
 * @rule RP1
 */
export function distanceInside(mask: Mask): Plane {
  const { width, height } = mask;
  const steps = verticalSteps(mask);
  const distance = createPlane(width, height);
  for (let row = 0; row < height; row++) {
    const from = row * width;
    for (let column = 0; column < width; column++) {
      if (!mask.values[from + column]) continue;
      let least = steps[from + column] ** 2;
      for (let dx = 1; dx * dx < least; dx++) {
        const left = column - dx < 0 ? 0 : steps[from + column - dx];
        const right = column + dx >= width ? 0 : steps[from + column + dx];
        const nearer = left < right ? left : right;
        least = Math.min(least, dx * dx + nearer * nearer);
      }
      distance.values[from + column] = Math.sqrt(least);
    }
  }
  return distance;
}

/** Each cell cut into 2 x 2: every stroke is then an even number of cells wide, and its middle lies between two. */
function halvedCells({ width, height, values }: Mask): Mask {
  const halved = createMask(2 * width, 2 * height);
  for (let row = 0; row < halved.height; row++) {
    const from = (row >> 1) * width;
    for (let column = 0; column < halved.width; column++) {
      halved.values[row * halved.width + column] = values[from + (column >> 1)];
    }
  }
  return halved;
}

/** A place on the ridge of a mask: its middle, and its distance from the edge of the mask, in cells. */
export interface RidgePoint {
  readonly x: number;
  readonly y: number;
  readonly insideCells: number;
}

/**
 * The ridges of a mask: wherever no neighbour lies deeper inside. Their distance is half the width of a stroke.
 *
 * @returns row by row; empty for an empty mask
 * @source local maxima of the distance, common practice
 * @rule RP1
 */
export function ridgePoints(mask: Mask): RidgePoint[] {
  const { width, height, values } = distanceInside(halvedCells(mask));
  const ridge: RidgePoint[] = [];
  for (let row = 0; row < height; row++) {
    for (let column = 0; column < width; column++) {
      const value = values[row * width + column];
      if (value === 0) continue;
      let isRidge = true;
      for (let y = Math.max(0, row - 1); y <= Math.min(height - 1, row + 1) && isRidge; y++) {
        for (let x = Math.max(0, column - 1); x <= Math.min(width - 1, column + 1); x++) {
          if (values[y * width + x] > value) isRidge = false;
        }
      }
      if (isRidge) ridge.push({ x: (column + 0.5) / 2, y: (row + 0.5) / 2, insideCells: value / 2 });
    }
  }
  return ridge;
}

/** A core is at most so far inside, mm, and at most this share of the largest distance inside. */
const deepestMm = 0.2;
const deepestShare = 0.3;

/**
 * The inner part of print, free of blurred edges: cells whose middle lies more than min(0.2 mm, 30 % of the largest distance
 * inside) from the mask's edge.
 *
 * @param mask  not widened; not altered
 * @source our own choice
 * @rule RP2
 */
export function coreOf(mask: Mask, pxPerMm: number): Mask {
  const { width, height, values } = distanceInside(mask);
  // A cell's edge lies half a cell nearer than the next cell's middle.
  const deepest = values.reduce((largest, value) => Math.max(largest, value), 0) - 0.5;
  const least = Math.min(deepestMm * pxPerMm, deepestShare * deepest);
  const core = createMask(width, height);
  for (let i = 0; i < values.length; i++) core.values[i] = values[i] > 0 && values[i] - 0.5 > least ? 1 : 0;
  return core;
}
