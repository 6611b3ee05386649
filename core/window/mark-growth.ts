import type { Mask } from '../base/plane';
import type { RectifiedWindow } from './rectified';

/** Height in cells of the tallest connected mark (8 neighbours); 0 without marks. */
function tallestMarkPx(marks: Mask): number {
  const left: Mask = { width: marks.width, height: marks.height, values: marks.values.slice() };
  let tallest = 0;
  for (let seed = 0; seed < left.values.length; seed++) {
    if (left.values[seed]) tallest = Math.max(tallest, takeMark(left, seed));
  }
  return tallest;
}

/** Takes the mark that holds `seed` out of `left`; its height in cells. */
function takeMark(left: Mask, seed: number): number {
  const { width, height, values } = left;
  const stack = [seed];
  values[seed] = 0;
  let top = height;
  let bottom = -1;
  while (stack.length > 0) {
    const at = stack.pop()!;
    const column = at % width;
    const row = (at - column) / width;
    top = Math.min(top, row);
    bottom = Math.max(bottom, row);
    for (let y = Math.max(0, row - 1); y <= Math.min(height - 1, row + 1); y++) {
      for (let x = Math.max(0, column - 1); x <= Math.min(width - 1, column + 1); x++) {
        if (!values[y * width + x]) continue;
        values[y * width + x] = 0;
        stack.push(y * width + x);
      }
    }
  }
  return bottom - top + 1;
}

/**
 * How far print is widened, mm, before the rest counts as glow, for its blurred edge.
 *
 * 0.4 mm; in windows under 9 mm height at most 0.1 of the tallest mark, but at least 0.2 mm, as less would leave
 * blurred edges in the glow.
 *
 * @source our own choice: in small windows 0.4 mm would eat the counters of the figures
 * @rule PM4
 */
export function growthMm(marks: Mask, window: RectifiedWindow): number {
  if (window.heightMm >= 9) return 0.4;
  return Math.min(0.4, Math.max(0.2, (0.1 * tallestMarkPx(marks)) / window.pxPerMm));
}
