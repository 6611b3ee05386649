import type { Corners } from '../base/points';
import type { LocatedWindow } from '../contract/measure';
import { homographyFromCorners, photoPointOf, windowPointOf } from '../window/homography';
import type { KnownWindow } from './known-window';

/** A window as a series first showed it, and the photo that did. */
export interface FirstShown {
  readonly window: KnownWindow;
  readonly photo: string;
}

const areaOf = ({ widthMm, heightMm }: KnownWindow): number => widthMm * heightMm;

/**
 * The corners of a window that a photo shows dark, from another window of the same panel that it shows lit: as both lay in the
 * photo that showed them first. The windows are taken to lie in one plane.
 *
 * @param dark     the window, as it was first shown
 * @param located  windows that were found in the photo
 * @param firstOf  those windows, as they were first shown
 * @returns null when no window that was found came from the same photo as this one
 * @source our own choice: the largest such window, whose corners reach the least far beyond themselves
 * @rule SE7
 */
export function cornersBesideKnown(
  dark: FirstShown,
  located: readonly LocatedWindow[],
  firstOf: (windowName: string) => FirstShown | undefined,
): Corners | null {
  const beside = located
    .flatMap(({ spec, corners }) => {
      const first = firstOf(spec.name);
      return first && first.photo === dark.photo ? [{ first: first.window, corners }] : [];
    })
    .sort((a, b) => areaOf(b.first) - areaOf(a.first))
    .at(0);
  if (!beside) return null;
  const { widthMm, heightMm } = beside.first;
  const before = homographyFromCorners(beside.first.corners, widthMm, heightMm);
  const now = homographyFromCorners(beside.corners, widthMm, heightMm);
  return dark.window.corners.map((corner) => photoPointOf(now, windowPointOf(before, corner))) as unknown as Corners;
}
