import type { PhotoPoint } from '../../base/points';

/** An upright box, px. */
export interface Extent {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** Extent of a polygon along columns and rows. */
export function extentOf(points: readonly PhotoPoint[]): Extent {
  const extent = { left: Infinity, right: -Infinity, top: Infinity, bottom: -Infinity };
  for (const { column, row } of points) {
    extent.left = Math.min(extent.left, column);
    extent.right = Math.max(extent.right, column);
    extent.top = Math.min(extent.top, row);
    extent.bottom = Math.max(extent.bottom, row);
  }
  return extent;
}

/** What two upright boxes have in common, as a share of both together and of the smaller of them, 0..1. */
export function overlapOf(a: Extent, b: Extent): { ofUnion: number; ofSmaller: number } {
  const width = Math.min(a.right, b.right) - Math.max(a.left, b.left);
  const height = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
  if (width <= 0 || height <= 0) return { ofUnion: 0, ofSmaller: 0 };
  const both = width * height;
  const areaA = (a.right - a.left) * (a.bottom - a.top);
  const areaB = (b.right - b.left) * (b.bottom - b.top);
  return { ofUnion: both / (areaA + areaB - both), ofSmaller: both / Math.min(areaA, areaB) };
}

/** Whether the gap between two upright boxes is from `leastPx` to `mostPx` wide. */
export function areBeside(a: Extent, b: Extent, leastPx: number, mostPx: number): boolean {
  const gapPx = Math.max(a.left - b.right, b.left - a.right, a.top - b.bottom, b.top - a.bottom);
  return gapPx >= leastPx && gapPx <= mostPx;
}
