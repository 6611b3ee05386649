import type { PhotoPoint } from '../../base/points';
import { percentilesOf } from '../../base/stats';
import { type OutlinePlace, strongestDrop, type Tone } from './edge-search';
import { darkness, glowOver, sidesOf, type Surroundings } from './glow-over';
import type { LightAt } from './light-grid';

/** What speaks for one side of a four-sided outline, or for one eighth of a rim. */
export interface PartEvidence {
  /** Share of the part whose strongest edge lies on the outline, 0..1. */
  readonly support: number;
  /** Median of ln(light just inside / light just outside). */
  readonly contrast: number;
}

/** What speaks for a lit window along and about an outline. */
export interface Evidence {
  /** Share of the outline whose strongest edge lies on it, 0..1. */
  readonly support: number;
  /** The longest stretch with hardly a gap, 0..1: places with an edge less `gapCost` for each without. */
  readonly arc: number;
  /** Mean over the outline of 1 on the edge to 0 at the tolerance and beyond. */
  readonly closeness: number;
  /** Median over the outline of ln(light just inside / light just outside). */
  readonly contrast: number;
  /** The same at the tenth of the outline where it is least. */
  readonly leastContrast: number;
  /** Longer and shorter side over the photo's longer side. */
  readonly longShare: number;
  readonly shortShare: number;
  readonly shortSidePx: number;
  /** How far opposite sides differ in length, as perspective makes them: the larger ln of their ratio. */
  readonly skew: number;
  /** ln of the window's own light over the brightest twentieth of the surroundings. */
  readonly overBright: number;
  readonly parts: readonly PartEvidence[];
}

/** Just inside and just outside are looked at from 2 to 10 % of the shorter side: beyond blur, before the next thing. */
const nearShares = [0.02, 0.04, 0.06, 0.08, 0.1];
/** And at least so many pixels away, that a photo's own blur does not mix the two. */
const leastNearPx = 2;
/** An edge is on the outline within 2 % of the shorter side, and 1.5 px. */
const onOutlineShare = 0.02;
const onOutlinePx = 1.5;
/** The light must fall by that much across the edge, in ln: less is noise or the glow's own fall-off. */
const leastFall = 0.15;
/** Added to the light before the logarithm, as a share of the window's own: what is darker than that is dark. */
export const darkShare = 0.3;

/** Light just inside (the better two of five, print may cover the others) and just outside (the median). */
function besides(lightAt: LightAt, { at, outX, outY }: OutlinePlace, shortSidePx: number): [number, number] {
  const sample = (share: number, side: 1 | -1): number => {
    const px = side * Math.max(share * shortSidePx, leastNearPx * (0.5 + share * 10));
    return lightAt(at.column + px * outX, at.row + px * outY);
  };
  const inside = nearShares.map((share) => sample(share, -1)).sort((x, y) => x - y);
  const outside = nearShares.map((share) => sample(share, 1)).sort((x, y) => x - y);
  return [(inside[3] + inside[4]) / 2 + darkness, outside[2] + darkness];
}

/** How near the strongest edge lies to the outline: 1 on it, 0 at the tolerance and beyond. */
function closenessOf(lightAt: LightAt, place: OutlinePlace, shortSidePx: number, tone: Tone): number {
  const nearPx = Math.max(onOutlinePx, onOutlineShare * shortSidePx);
  const found = strongestDrop(lightAt, place, 4 * nearPx, Math.max(0.75, nearPx / 4), tone);
  if (!found || found.fall < leastFall) return 0;
  return Math.max(0, 1 - Math.abs(found.offsetPx) / nearPx);
}

/** What one place without an edge costs a stretch, in places with one. */
const gapCost = 2;

function arcOf(supported: readonly boolean[]): number {
  let best = 0;
  let sum = 0;
  // Twice around, so that a stretch may run over the start; never longer than once around.
  for (let i = 0; i < 2 * supported.length; i++) {
    sum = Math.max(0, sum + (supported[i % supported.length] ? 1 : -gapCost));
    best = Math.max(best, sum);
  }
  return Math.min(1, best / supported.length);
}

function skewOf([a, b, c, d]: readonly PhotoPoint[]): number {
  const length = (p: PhotoPoint, q: PhotoPoint): number => Math.hypot(q.column - p.column, q.row - p.row);
  return Math.max(Math.abs(Math.log(length(a, b) / length(d, c))), Math.abs(Math.log(length(a, d) / length(b, c))));
}

/**
 * Looks along an outline and around it for what a lit window shows.
 *
 * @param corners  of the outline or, for an ellipse, about it; clockwise
 * @param parts    places evenly along each side, or each eighth of the rim
 * @param photo    its size, and other lit windows
 * @source our own choice
 * @rule WN17
 */
export function evidenceFor(
  lightAt: LightAt,
  corners: readonly PhotoPoint[],
  parts: readonly (readonly OutlinePlace[])[],
  photo: Surroundings,
): Evidence {
  const sides = sidesOf(corners);
  const shortSidePx = Math.min(...sides);
  const { over, ownLight } = glowOver(lightAt, corners, photo);
  const tone: Tone = (light) => Math.log(light + darkShare * ownLight);
  const ofParts = parts.map((places) => ({
    contrasts: places.map((place) => {
      const [within, without] = besides(lightAt, place, shortSidePx);
      return Math.log(within / without);
    }),
    closeness: places.map((place) => closenessOf(lightAt, place, shortSidePx, tone)),
  }));
  const contrasts = ofParts.flatMap((part) => part.contrasts);
  const closeness = ofParts.flatMap((part) => part.closeness);
  const [leastContrast, contrast] = percentilesOf(contrasts, [10, 50]);
  return {
    support: closeness.filter((value) => value > 0).length / closeness.length,
    arc: arcOf(closeness.map((value) => value > 0)),
    closeness: closeness.reduce((sum, value) => sum + value, 0) / closeness.length,
    contrast,
    leastContrast,
    longShare: Math.max(...sides) / Math.max(photo.widthPx, photo.heightPx),
    shortShare: shortSidePx / Math.max(photo.widthPx, photo.heightPx),
    shortSidePx,
    skew: skewOf(corners),
    overBright: over,
    parts: ofParts.map((part) => ({
      support: part.closeness.filter((value) => value > 0).length / part.closeness.length,
      contrast: percentilesOf(part.contrasts, [50])[0],
    })),
  };
}
