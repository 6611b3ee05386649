type Pair = readonly [x: number, y: number];

function turn(a: Pair, b: Pair, c: Pair): number {
  return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
}

function edgesCross(a: Pair, b: Pair, c: Pair, d: Pair): boolean {
  return turn(a, b, c) * turn(a, b, d) < 0 && turn(c, d, a) * turn(c, d, b) < 0;
}

/**
 * The first two sides of a polygon that cross, by the points that they begin at.
 *
 * @returns indices from 0, or null; sides that only touch do not cross
 * @source common practice (signs of the turns)
 * @rule WN9
 */
export function crossingSides(points: readonly Pair[]): readonly [number, number] | null {
  const count = points.length;
  for (let i = 0; i < count; i++) {
    for (let j = i + 2; j < count; j++) {
      if (i === 0 && j === count - 1) continue;
      if (edgesCross(points[i], points[(i + 1) % count], points[j], points[(j + 1) % count])) return [i, j];
    }
  }
  return null;
}
