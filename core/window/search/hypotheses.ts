import type { PhotoPoint } from '../../base/points';
import type { BrightRegion } from './bright-regions';
import { type SearchPass, type OutlinePlace } from './edge-search';
import { type Ellipse, ellipsePlaces, fitEllipse, halfAxes, robustEllipse } from './fit-ellipse';
import { fitQuad, sidePlaces } from './fit-quad';
import { distanceOf, quadAbout, spreadAlong } from './hull';

/** An outline fitted to a bright region. */
export type FittedOutline =
  | { readonly outline: 'rectangle'; readonly corners: readonly PhotoPoint[] }
  | { readonly outline: 'ellipse'; readonly ellipse: Ellipse };

const hullPoints = 160;
/** Places for the evidence, about so many in all. */
const evidencePlaces = 128;

/** Shorter of the mean lengths of opposite sides, px. */
export function shortSideOf([a, b, c, d]: readonly PhotoPoint[]): number {
  return Math.min(distanceOf(a, b) + distanceOf(d, c), distanceOf(a, d) + distanceOf(b, c)) / 2;
}

/** Passes from a wide look on the reduced light to a narrow one on the photo's pixels. */
export type PassesFor = (shortSidePx: number) => readonly SearchPass[];

export function fitRectangle(region: BrightRegion, passesFor: PassesFor): FittedOutline | null {
  let corners = quadAbout(region.hull);
  if (!corners) return null;
  for (const pass of passesFor(shortSideOf(corners))) {
    if (!corners) return null;
    corners = fitQuad(corners, pass);
  }
  return corners && { outline: 'rectangle', corners };
}

export function fitRound(region: BrightRegion, passesFor: PassesFor): FittedOutline | null {
  let ellipse = robustEllipse(spreadAlong(region.hull, hullPoints));
  if (!ellipse) return null;
  for (const pass of passesFor(2 * halfAxes(ellipse).shortPx)) {
    if (!ellipse) return null;
    ellipse = fitEllipse(ellipse, pass);
  }
  return ellipse && { outline: 'ellipse', ellipse };
}

/** Places evenly along a fitted outline. */
export function placesOf(fitted: FittedOutline): OutlinePlace[] {
  if (fitted.outline === 'ellipse') return ellipsePlaces(fitted.ellipse);
  const { corners } = fitted;
  const lengths = corners.map((corner, i) => distanceOf(corner, corners[(i + 1) % 4]));
  const around = lengths.reduce((sum, length) => sum + length, 0);
  return corners.flatMap((corner, i) => {
    const count = Math.max(4, Math.round((evidencePlaces * lengths[i]) / around));
    return sidePlaces(corner, corners[(i + 1) % 4], count, 0.04);
  });
}
