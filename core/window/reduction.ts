import type { Corners, PhotoPoint } from '../base/points';
import { assumedSize } from './corners';

interface Size {
  readonly widthMm: number;
  readonly heightMm: number;
}

const side = (a: PhotoPoint, b: PhotoPoint): number => Math.hypot(b.column - a.column, b.row - a.row);

/**
 * How many photo pixels a mm of the window's most coarsely seen side takes.
 *
 * @returns 0 or more; a rough measure, which corners that cannot be do not stop
 * @source our own choice
 * @rule PX14
 */
export function coarsestPxPerMm([topLeft, topRight, bottomRight, bottomLeft]: Corners, size: Size): number {
  const across = Math.min(side(topLeft, topRight), side(bottomLeft, bottomRight)) / size.widthMm;
  const down = Math.min(side(topLeft, bottomLeft), side(topRight, bottomRight)) / size.heightMm;
  return Math.min(across, down);
}

/** So many pixels a mm are kept: a fifth more than the straightened window has cells. */
const keptPxPerMm = 12;

/**
 * Into blocks of how many pixels a side a photo may be averaged before its windows are straightened: at least 12 pixels a mm
 * are left in each, where the straightened window has 10 cells.
 *
 * @param windows  null sizes: as `assumedSize` takes them
 * @returns 1 or more, whole
 * @source our own choice: the cells are means over that area anyway
 * @rule PX14
 */
export function reductionFor(windows: readonly { readonly corners: Corners; readonly sizeMm: Size | null }[]): number {
  const scales = windows.map(({ corners, sizeMm }) => coarsestPxPerMm(corners, sizeMm ?? assumedSize(corners)));
  const by = Math.floor(Math.min(...scales) / keptPxPerMm);
  return by >= 1 && Number.isFinite(by) ? by : 1;
}
