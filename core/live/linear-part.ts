import { blockMeans } from '../base/block-means';
import type { LinearPart } from '../contract/bench';
import type { Corners } from '../base/points';
import { coarsestPxPerMm } from '../window/reduction';

/** A whole part of a photo in linear light, reduced by area `by` times more. */
function reduced(part: LinearPart, by: number): LinearPart {
  if (by <= 1) return part;
  const width = Math.floor(part.width / by);
  const height = Math.floor(part.height / by);
  const reducedBy = part.reducedBy * by;
  return {
    region: { ...part.region, width: width * reducedBy, height: height * reducedBy },
    reducedBy,
    width,
    height,
    rgb: blockMeans(part.rgb, part.width, part.height, by),
  };
}

/**
 * The part without the pixels that following a corner does not need: once a drag, before `readLive`. From one to two pixels a
 * cell of the live window are kept.
 *
 * @param corners     the window as it stands at the start of the drag
 * @param cellsPerMm  `LiveWindow.pxPerMm`
 * @source our own choice
 * @rule LV1
 */
export function partForWindow(
  part: LinearPart,
  corners: Corners,
  size: { readonly widthMm: number; readonly heightMm: number },
  cellsPerMm: number,
): LinearPart {
  const by = Math.floor(coarsestPxPerMm(corners, size) / part.reducedBy / cellsPerMm);
  return reduced(part, Math.max(1, Math.min(by, part.width, part.height)));
}

/**
 * Whether a part holds all of a window, up to what lies outside the photo and up to one of its own pixels (blocks that were
 * dropped at the photo's edge).
 *
 * @source our own choice
 * @rule LV1
 */
export function holdsWindow(
  { region, reducedBy }: Pick<LinearPart, 'region' | 'reducedBy'>,
  corners: Corners,
  photo: { readonly widthPx: number; readonly heightPx: number },
): boolean {
  const within = (value: number, limit: number): number => Math.min(Math.max(value, 0), limit);
  return corners.every((corner) => {
    const column = within(corner.column, photo.widthPx);
    const row = within(corner.row, photo.heightPx);
    return (
      column >= region.column - reducedBy &&
      row >= region.row - reducedBy &&
      column <= region.column + region.width + reducedBy &&
      row <= region.row + region.height + reducedBy
    );
  });
}
