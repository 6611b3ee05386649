import type { Plane } from '../../core/base/plane';

/**
 * Lines of equal value through a plane, each level's as an SVG path in cells; cell (c, r) has its centre at (c + 0.5, r + 0.5).
 * Cells without a value end the lines. One pass for all levels: most cells lie between two of them.
 *
 * @returns a path for each level, in their order; empty where nothing crosses it
 * @source marching squares, common practice; the two ambiguous cases take the mean of the four corners
 */
export function contourPaths(field: Plane, levels: readonly number[]): string[] {
  const { width, height, values } = field;
  const parts: string[][] = levels.map(() => []);
  for (let row = 0; row + 1 < height; row++) {
    for (let column = 0; column + 1 < width; column++) {
      const at = row * width + column;
      const [a, b, c, d] = [values[at], values[at + 1], values[at + width + 1], values[at + width]];
      // NaN in any of the four makes both NaN, and no level lies between.
      const least = Math.min(a, b, c, d);
      const most = Math.max(a, b, c, d);
      for (let i = 0; i < levels.length; i++) {
        if (levels[i] > least && levels[i] <= most) parts[i].push(linesIn([a, b, c, d], levels[i], column, row));
      }
    }
  }
  return parts.map((lines) => lines.join(''));
}

/** One or two lines through the square between four cell centres; corners run clockwise from the top left. */
function linesIn(corners: readonly number[], level: number, column: number, row: number): string {
  const above = corners.map((value) => value >= level);
  const crossings: (readonly [number, number])[] = [];
  for (let side = 0; side < 4; side++) {
    const next = (side + 1) % 4;
    if (above[side] === above[next]) continue;
    const share = (level - corners[side]) / (corners[next] - corners[side]);
    crossings.push(pointOnSide(column, row, side, share));
  }
  const [a, b, c, d] = crossings;
  if (crossings.length === 2) return line(a, b);
  const isMiddleAbove = corners.reduce((sum, value) => sum + value, 0) / 4 >= level;
  return isMiddleAbove === above[0] ? line(a, b) + line(c, d) : line(d, a) + line(b, c);
}

/** A place on a side of the square between four cell centres; sides run top, right, bottom, left, clockwise. */
function pointOnSide(column: number, row: number, side: number, share: number): readonly [number, number] {
  const x = column + 0.5;
  const y = row + 0.5;
  if (side === 0) return [x + share, y];
  if (side === 1) return [x + 1, y + share];
  return side === 2 ? [x + 1 - share, y + 1] : [x, y + 1 - share];
}

function line(a: readonly [number, number], b: readonly [number, number]): string {
  const text = (value: number): string => value.toFixed(2);
  return `M${text(a[0])} ${text(a[1])}L${text(b[0])} ${text(b[1])}`;
}
