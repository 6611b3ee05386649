import type { Mask, Plane } from '../base/plane';

/** A top with the cells that lead up to it. */
export interface Hill {
  /** From high to low; the first is the top. */
  readonly cells: readonly number[];
  readonly level: number;
}

/** Two tops with no deeper saddle between them than this share of the lower are one. */
const joiningShare = 0.8;

/** Indices of the cells (8 neighbours) about one. */
function neighboursOf(cell: number, { width, height }: Plane): number[] {
  const row = Math.floor(cell / width);
  const column = cell - row * width;
  const found: number[] = [];
  for (let y = Math.max(0, row - 1); y <= Math.min(height - 1, row + 1); y++) {
    for (let x = Math.max(0, column - 1); x <= Math.min(width - 1, column + 1); x++) {
      if (y !== row || x !== column) found.push(y * width + x);
    }
  }
  return found;
}

/**
 * The hills of a plane above 0. Cells are taken from high to low and join their neighbours; where two hills meet, the lower is a
 * hill of its own only if the saddle lies under 80 % of its top, and by `leastDepth` under it.
 *
 * @param within  cells that count; not altered
 * @returns highest first; of equal cells the upper, then the left one counts as higher
 * @source saddle share as for spots on a glowing ground (rule SP2); common practice (watershed by flooding)
 * @rule SP7
 */
export function hillsOf(heights: Plane, within: Mask, leastDepth: number): Hill[] {
  const { values } = heights;
  const order = Array.from(values.keys()).filter((cell) => within.values[cell] && values[cell] > 0);
  order.sort((a, b) => values[b] - values[a] || a - b);
  const hillOf = new Int32Array(values.length).fill(-1);
  const tops: number[] = [];
  /** The hill that a hill was joined to; itself while it stands alone. */
  const joinedTo: number[] = [];
  const homeOf = (hill: number): number => {
    let home = hill;
    while (joinedTo[home] !== home) home = joinedTo[home];
    joinedTo[hill] = home;
    return home;
  };
  for (const cell of order) {
    const near = neighboursOf(cell, heights).filter((one) => hillOf[one] >= 0);
    // Hills are numbered in the order of their tops: the first is the highest.
    const [home, ...lower] = [...new Set(near.map((one) => homeOf(hillOf[one])))].sort((a, b) => a - b);
    hillOf[cell] = home ?? joinedTo.push(tops.push(cell) - 1) - 1;
    for (const hill of lower) {
      const top = values[tops[hill]];
      const isOwn = values[cell] < joiningShare * top && top - values[cell] >= leastDepth;
      if (!isOwn) joinedTo[hill] = home;
    }
  }
  const cellsOf = tops.map((): number[] => []);
  for (const cell of order) cellsOf[homeOf(hillOf[cell])].push(cell);
  return cellsOf.filter((cells) => cells.length > 0).map((cells) => ({ cells, level: values[cells[0]] }));
}
