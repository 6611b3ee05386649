import type { PhotoPoint } from '../../core/base/points';

type Pair = readonly [number, number];

/**
 * How far found corners are from true ones: the largest distance of a pair, as a share of the true upper side, for the
 * order of the corners that fits best (a window on end is read from its own top-left corner, the search begins at the photo's).
 */
export function cornerDistance(found: readonly PhotoPoint[], truth: readonly Pair[]): number {
  const width = Math.hypot(truth[1][0] - truth[0][0], truth[1][1] - truth[0][1]);
  const turned = [0, 1, 2, 3].map((turn) =>
    Math.max(...truth.map(([x, y], i) => Math.hypot(x - found[(i + turn) % 4].column, y - found[(i + turn) % 4].row))),
  );
  return Math.min(...turned) / width;
}

function areaOf(polygon: readonly Pair[]): number {
  return Math.abs(
    polygon.reduce((sum, [x, y], i) => {
      const [nextX, nextY] = polygon[(i + 1) % polygon.length];
      return sum + x * nextY - nextX * y;
    }, 0) / 2,
  );
}

/** The part of a polygon inside a convex one that runs clockwise on the screen (Sutherland & Hodgman). */
function cutTo(polygon: readonly Pair[], convex: readonly Pair[]): Pair[] {
  return convex.reduce<Pair[]>(
    (left, [ax, ay], i) => {
      const [bx, by] = convex[(i + 1) % convex.length];
      const side = ([x, y]: Pair) => (bx - ax) * (y - ay) - (by - ay) * (x - ax);
      return left.flatMap((point, k): Pair[] => {
        const next = left[(k + 1) % left.length];
        const [here, there] = [side(point), side(next)];
        const share = here / (here - there);
        const crossing: Pair = [point[0] + share * (next[0] - point[0]), point[1] + share * (next[1] - point[1])];
        return [...(here >= 0 ? [point] : []), ...(here >= 0 !== there >= 0 ? [crossing] : [])];
      });
    },
    [...polygon],
  );
}

/** Common area over the area of both, and over that of the mark. */
export function overlapWithMark(
  found: readonly PhotoPoint[],
  mark: readonly Pair[],
): { ofUnion: number; ofMark: number } {
  const outline = found.map(({ column, row }): Pair => [column, row]);
  const both = areaOf(cutTo(mark, outline));
  return { ofUnion: both / (areaOf(outline) + areaOf(mark) - both), ofMark: both / areaOf(mark) };
}
