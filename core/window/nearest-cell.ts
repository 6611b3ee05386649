import type { Mask } from '../base/plane';

/** For each cell the row of the nearest masked cell in its own column; -1 when the column has none. */
function nearestInColumn({ width, height, values }: Mask): Int32Array {
  const nearest = new Int32Array(values.length).fill(-1);
  for (let column = 0; column < width; column++) {
    let above = -1;
    for (let row = 0; row < height; row++) {
      if (values[row * width + column]) above = row;
      nearest[row * width + column] = above;
    }
    let below = -1;
    for (let row = height - 1; row >= 0; row--) {
      const at = row * width + column;
      if (values[at]) below = row;
      if (below >= 0 && (nearest[at] < 0 || below - row < row - nearest[at])) nearest[at] = below;
    }
  }
  return nearest;
}

/**
 * For each cell of a plane the index of the masked cell whose middle is nearest (itself, if it is masked); of equally near ones the
 * left, then the upper. -1 everywhere when the mask is empty.
 *
 * @source exact Euclidean distance by columns, then rows; common practice
 * @rule SP7
 */
export function nearestCells(mask: Mask): Int32Array {
  const { width, height } = mask;
  const inColumn = nearestInColumn(mask);
  const nearest = new Int32Array(width * height).fill(-1);
  for (let row = 0; row < height; row++) {
    for (let column = 0; column < width; column++) {
      let least = Infinity;
      for (let dx = 0; dx * dx < least && dx < width; dx++) {
        for (const other of dx === 0 ? [column] : [column - dx, column + dx]) {
          if (other < 0 || other >= width) continue;
          const found = inColumn[row * width + other];
          if (found < 0) continue;
          const squared = dx * dx + (found - row) ** 2;
          if (squared >= least) continue;
          least = squared;
          nearest[row * width + column] = found * width + other;
        }
      }
    }
  }
  return nearest;
}
