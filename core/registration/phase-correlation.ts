import { assertSameShape, type Plane } from '../base/plane';
import { type ComplexPlane, powerOfTwoFrom, transformInPlace } from './fourier';

/** A shift in cells: what lies at (x, y) in the first picture lies at (x + columns, y + rows) in the second. */
export interface Shift {
  readonly columns: number;
  readonly rows: number;
}

/** Falls smoothly from 1 in the middle to 0 at both ends, so that the picture's rim makes no lines of its own. */
function taperOf(length: number): Float64Array {
  return Float64Array.from({ length }, (_, i) => (1 - ((2 * i + 1) / length - 1) ** 2) ** 2);
}

/** The picture less its mean, tapered, on a grid of powers of two with room for the shift; NaN counts as the mean. */
function prepared({ width, height, values }: Plane, reach: number): ComplexPlane {
  const finite = values.filter((value) => !Number.isNaN(value));
  const mean = finite.reduce((sum, value) => sum + value, 0) / Math.max(1, finite.length);
  const [across, down] = [taperOf(width), taperOf(height)];
  const [wide, high] = [powerOfTwoFrom(width + reach), powerOfTwoFrom(height + reach)];
  const real = new Float64Array(wide * high);
  for (let row = 0; row < height; row++) {
    for (let column = 0; column < width; column++) {
      const value = values[row * width + column];
      if (!Number.isNaN(value)) real[row * wide + column] = (value - mean) * across[column] * down[row];
    }
  }
  return { width: wide, height: high, real, imaginary: new Float64Array(wide * high) };
}

/** conj(F1) F2 / (|F1 F2| + floor): the floor, a hundredth of the mean, keeps empty frequencies from counting like full ones. */
function crossPhase(first: ComplexPlane, second: ComplexPlane): ComplexPlane {
  const { width, height } = first;
  const real = new Float64Array(width * height);
  const imaginary = new Float64Array(width * height);
  let sum = 0;
  for (let i = 0; i < real.length; i++) {
    real[i] = first.real[i] * second.real[i] + first.imaginary[i] * second.imaginary[i];
    imaginary[i] = first.real[i] * second.imaginary[i] - first.imaginary[i] * second.real[i];
    sum += Math.hypot(real[i], imaginary[i]);
  }
  const floor = 0.01 * (sum / real.length);
  for (let i = 0; i < real.length; i++) {
    const size = Math.hypot(real[i], imaginary[i]) + floor;
    real[i] = size > 0 ? real[i] / size : 0;
    imaginary[i] = size > 0 ? imaginary[i] / size : 0;
  }
  return { width, height, real, imaginary };
}

/**
 * The whole-cell shift between two pictures of the same print, by phase correlation: a start for the refinement.
 *
 * @param first, second the same shape; NaN = not measured; not altered
 * @param reachCells    shifts beyond this in either direction are not looked at
 * @returns no shift when one of the pictures is empty
 * @source Kuglin & Hines, Proc. IEEE Conf. Cybernetics and Society, 1975 (from memory); taper and floor: our own choice
 * @rule RG1
 */
export function shiftByPhase(first: Plane, second: Plane, reachCells: number): Shift {
  assertSameShape(first, second);
  const reach = Math.max(1, Math.ceil(reachCells));
  const [one, two] = [prepared(first, reach), prepared(second, reach)];
  transformInPlace(one);
  transformInPlace(two);
  const phase = crossPhase(one, two);
  // The inverse transform is that of the conjugate; only its real part counts, and its scale does not.
  for (let i = 0; i < phase.imaginary.length; i++) phase.imaginary[i] = -phase.imaginary[i];
  transformInPlace(phase);
  const { width, height, real } = phase;
  let best = { columns: 0, rows: 0 };
  let highest = real[0];
  for (let rows = -Math.min(reach, height / 2); rows <= Math.min(reach, height / 2 - 1); rows++) {
    for (let columns = -Math.min(reach, width / 2); columns <= Math.min(reach, width / 2 - 1); columns++) {
      const value = real[((rows + height) % height) * width + ((columns + width) % width)];
      if (value > highest) {
        highest = value;
        best = { columns, rows };
      }
    }
  }
  return best;
}
