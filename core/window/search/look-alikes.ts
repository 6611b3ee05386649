import type { PhotoPoint } from '../../base/points';
import type { BrightRegion } from './bright-regions';
import { type Extent, extentOf, overlapOf } from './overlap';

/** Sizes within a fifth of each other are alike. */
const likeRatio = 1.2;
/** Only patches that fill their hull so well are counted: patches of a chart, keys, panes. */
const leastFilled = 0.85;

function isAlike(a: number, b: number): boolean {
  return a < likeRatio * b && b < likeRatio * a;
}

/** Well-filled patches, each place counted once. */
export function plainPatches(regions: readonly BrightRegion[]): Extent[] {
  const patches: Extent[] = [];
  for (const { hull, filled } of regions) {
    if (filled < leastFilled) continue;
    const extent = extentOf(hull);
    const isKnown = patches.some(
      (one) =>
        overlapOf(one, extent).ofSmaller > 0.5 &&
        isAlike(one.right - one.left, extent.right - extent.left) &&
        isAlike(one.bottom - one.top, extent.bottom - extent.top),
    );
    if (!isKnown) patches.push(extent);
  }
  return patches;
}

/**
 * How many other patches of the photo have the outline's size: a panel has a few windows, a colour chart or a keyboard many.
 *
 * @param patches  from `plainPatches`
 * @source our own choice
 * @rule WN18
 */
export function countLookAlikes(outline: readonly PhotoPoint[], patches: readonly Extent[]): number {
  const own = extentOf(outline);
  return patches.filter(
    (patch) =>
      overlapOf(own, patch).ofSmaller < 0.2 &&
      isAlike(own.right - own.left, patch.right - patch.left) &&
      isAlike(own.bottom - own.top, patch.bottom - patch.top),
  ).length;
}
