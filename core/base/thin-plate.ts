import { assertSameShape, type Mask, type Plane } from './plane';

/**
 * Adds the forces of a bent plate: of the squares of all second differences along x, along y and, twice, across.
 *
 * @param values  heights, row by row
 */
function addBending(values: Float64Array, width: number, forces: Float64Array): void {
  const size = values.length;
  for (let at = 0; at < size; at++) {
    const x = at % width;
    const [right, below] = [at + 1, at + width];
    if (x > 0 && x < width - 1) {
      const bend = values[at - 1] - 2 * values[at] + values[right];
      forces[at - 1] += bend;
      forces[at] -= 2 * bend;
      forces[right] += bend;
    }
    if (below >= size) continue;
    if (at >= width) {
      const bend = values[at - width] - 2 * values[at] + values[below];
      forces[at - width] += bend;
      forces[at] -= 2 * bend;
      forces[below] += bend;
    }
    if (x < width - 1) {
      const bend = 2 * (values[at] - values[right] - values[below] + values[below + 1]);
      forces[at] += bend;
      forces[right] -= bend;
      forces[below] -= bend;
      forces[below + 1] += bend;
    }
  }
}

/** What the plate smooths over where it is held, cells: noise of single cells bends nothing. */
const heldOverCells = 2;
/** Holes of some 20 cells are smooth after half as many; what wider ones lack by then is slight. */
const mostSteps = 200;
/** Of the first residual: far below what a photo tells. */
const smallEnough = 1e-4;

/**
 * Open cells bent smoothly through the known ones around them, as a thin plate that is held there by springs: slopes and curvature go
 * on under a hole, and beyond the last known cell the slope does.
 *
 * @param plane  known cells, and a first guess in the open ones; not altered
 * @param open   1 = to be filled
 * @returns known cells as they are
 * @source thin-plate smoothing spline, Duchon 1977 (from memory), by conjugate gradients, Hestenes & Stiefel 1952 (from memory)
 * @rule AV11
 */
export function thinPlateFilled(plane: Plane, open: Mask): Plane {
  assertSameShape(plane, open);
  if (!open.values.includes(1)) return plane;
  const size = plane.values.length;
  const springs = Float64Array.from(open.values, (isOpen) => (isOpen ? 0 : heldOverCells ** -4));
  const forcesOf = (values: Float64Array): Float64Array => {
    const forces = values.map((value, i) => springs[i] * value);
    addBending(values, plane.width, forces);
    return forces;
  };
  const product = (a: Float64Array, b: Float64Array): number => a.reduce((sum, value, i) => sum + value * b[i], 0);
  const filled = Float64Array.from(plane.values);
  const residual = forcesOf(filled).map((force, i) => springs[i] * plane.values[i] - force);
  const direction = residual.slice();
  let error = product(residual, residual);
  const enough = error * smallEnough ** 2;
  for (let step = 0; step < mostSteps && error > enough; step++) {
    const forces = forcesOf(direction);
    const length = error / product(direction, forces);
    for (let i = 0; i < size; i++) {
      filled[i] += length * direction[i];
      residual[i] -= length * forces[i];
    }
    const left = product(residual, residual);
    for (let i = 0; i < size; i++) direction[i] = residual[i] + (left / error) * direction[i];
    error = left;
  }
  return { ...plane, values: plane.values.map((value, i) => (open.values[i] ? filled[i] : value)) };
}
