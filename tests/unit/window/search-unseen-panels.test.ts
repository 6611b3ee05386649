import { describe, expect, it } from 'vitest';
import type { PhotoPoint } from '../../../core/base/points';
import { type Candidate, findWindows } from '../../../core/window/search/find-windows';
import { overlapWithMark } from '../../support/corner-distance';
import { unseenScene } from '../../support/unseen/unseen-scene';
import { isLongRun } from '../../support/long-run';

/*
 * Seeds that no bound of the search was set with; others (0 to 39) showed that light knobs were taken for faces. Of all 40 scenes,
 * 51 of 51 windows are found and no other outline is sure. Whoever sets a bound with these takes other seeds.
 */
const seeds = Array.from({ length: isLongRun ? 40 : 8 }, (_, i) => 1000 + i);

/** The candidate's outline: its corners, or 72 points of the ellipse in them. */
function polygonOf({ corners, outline }: Candidate): readonly PhotoPoint[] {
  if (outline === 'rectangle') return corners;
  const [topLeft, topRight, , bottomLeft] = corners;
  return Array.from({ length: 72 }, (_, i) => {
    const u = (1 + Math.cos((i * Math.PI) / 36)) / 2;
    const v = (1 + Math.sin((i * Math.PI) / 36)) / 2;
    return {
      column: topLeft.column + u * (topRight.column - topLeft.column) + v * (bottomLeft.column - topLeft.column),
      row: topLeft.row + u * (topRight.row - topLeft.row) + v * (bottomLeft.row - topLeft.row),
    };
  });
}

describe('panels never seen before', () => {
  it('[WN12, WN18] in lit rooms 9 of 10 windows are found, and at most 1 of 20 sure outlines is not a window’s', () => {
    let [shown, found, sure, wrong] = [0, 0, 0, 0];
    for (const seed of seeds) {
      const { photo, windows } = unseenScene(seed);
      const candidates = findWindows(photo).filter(({ confidence }) => confidence >= 0.5);
      const fits = (candidate: Candidate, window: (typeof windows)[number]) => {
        const mark = window.polygon.map(({ column, row }) => [column, row] as const);
        return candidate.outline === window.outline && overlapWithMark(polygonOf(candidate), mark).ofUnion >= 0.95;
      };
      shown += windows.length;
      sure += candidates.length;
      found += windows.filter((window) => candidates.some((candidate) => fits(candidate, window))).length;
      wrong += candidates.filter((candidate) => !windows.some((window) => fits(candidate, window))).length;
    }
    const told = `${found} of ${shown} windows found, ${wrong} of ${sure} sure outlines wrong`;
    expect(shown, told).toBeGreaterThanOrEqual(seeds.length);
    expect(found / shown, told).toBeGreaterThanOrEqual(0.9);
    expect(wrong / sure, told).toBeLessThanOrEqual(0.05);
  }, 600_000);
});
