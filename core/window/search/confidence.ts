import type { Evidence, PartEvidence } from './evidence';

/** From where a piece of evidence begins to count to where it counts in full. */
type Ramp = readonly [none: number, full: number];

/*
 * The ramps were set on the invented samples and the real photos that the tests go through, so that every window lit brighter
 * than the room is above 0.5 and all else below. Each says what it keeps apart.
 */

/** Rectangles: share of the outline with its edge. Lit dials reach 0.75 to 1; leaves and shadows mostly stay below 0.5. */
const supportRamp: Ramp = [0.3, 0.9];
/** Rectangles: closeness of the edges. Curved dials reach 0.5, straight windows 0.8; panes of a facade 0.4. */
const sideClosenessRamp: Ramp = [0.3, 0.5];
/** Rectangles: ln step where it is least. A patch inside a window has no step where it joins the rest. */
const leastContrastRamp: Ramp = [-0.1, 0.3];
/**
 * The weakest side: share of it with its edge, and ln step across it. A side on print or where the light falls off reaches 0
 * to 0.4 and hardly a step; sides of curved dials 0.65 and more, straight ones 1.
 */
const sideSupportRamp: Ramp = [0.3, 0.6];
const sideContrastRamp: Ramp = [0.2, 0.7];
/** The weakest eighth of a rim: the end of a cover may hide half of it. */
const eighthSupportRamp: Ramp = [0.1, 0.4];
/** Of a covered face that many eighths in a row must show: the cover leaves 0.6 of the rim. */
const eighthsOfCovered = 5;
/** Ellipses: unbroken arc. A face whose lower part is covered keeps 0.45 to 0.6; blobs have gaps. */
const arcRamp: Ramp = [0.2, 0.45];
/** Ellipses: closeness of the edges. Faces with a cover have 0.5 to 0.6; petals below 0.45. */
const closenessRamp: Ramp = [0.25, 0.5];
/** Ellipses: shorter over longer side. A round face so narrow would be seen from 60 degrees aside. */
const aspectRamp: Ramp = [0.4, 0.55];
/** Rectangles: ln over bright surroundings. Lit windows have 1.2 and more; a shining panel in a lit room 0.6. */
const rectangleGlowRamp: Ramp = [0.4, 1.1];
/** Ellipses: a true ellipse is rare among things that are not windows, so less glow will do; a face that is off has none. */
const ellipseGlowRamp: Ramp = [-0.2, 0.5];
/** Rectangles: ln step from just inside to just outside. 0.2 is a shade on a wall. */
const contrastRamp: Ramp = [0.2, 1];
/** Ellipses: a bright metal knob on a grey panel is round and has its edge, but hardly more than 0.8; lit faces have 1.8 and more. */
const ellipseContrastRamp: Ramp = [0.4, 1.4];
/** Longer side over the photo's: below 4 % it is a lamp or a reflection. */
const longShareRamp: Ramp = [0.04, 0.06];
/** Shorter side over the photo's longer: a strip of 1 % is an edge that shines. */
const shortShareRamp: Ramp = [0.012, 0.02];
/** Shorter side, px: the tolerance of 1.5 px to either side lets anything so small pass for straight. */
const shortSidePxRamp: Ramp = [25, 45];
/** ln of the ratio of opposite sides: strong perspective gives 0.5, a triangle far more. */
const skewRamp: Ramp = [0.4, 0.9];
/** Other patches of the same size: panels have two or three windows, charts and keyboards many. */
const lookAlikesRamp: Ramp = [2, 7];

/** 0 up to the first bound, 1 from the second, straight between. */
function along(value: number, [none, full]: Ramp): number {
  return Math.min(1, Math.max(0, (value - none) / (full - none)));
}

/** A side that is not there makes an outline wrong however well the others fit: the weakest counts. */
function weakestSide(parts: readonly PartEvidence[]): number {
  return Math.min(
    ...parts.map(({ support, contrast }) => along(support, sideSupportRamp) * along(contrast, sideContrastRamp)),
  );
}

/** The same for the eighths of a rim; of a covered face, for the best stretch of them. */
function weakestEighth(parts: readonly PartEvidence[], isCovered: boolean): number {
  const shown = isCovered ? eighthsOfCovered : parts.length;
  const stretches = parts.map((_, first) =>
    Math.min(...Array.from({ length: shown }, (_one, i) => parts[(first + i) % parts.length].support)),
  );
  return along(Math.max(...stretches), eighthSupportRamp);
}

/** The outline's kind, and whether a cover hides part of a face. */
export type OutlineSeen =
  { readonly outline: 'rectangle' } | { readonly outline: 'ellipse'; readonly covered: boolean };

/**
 * How sure it is that an outline is that of a lit window, 0..1.
 *
 * The product of what each piece of evidence is worth, each rising straight from 0 to 1 between two bounds: one piece
 * that fails cannot be made up for by the others. The weakest side, or eighth of a rim, is a piece of its own. It is no
 * probability.
 *
 * @param lookAlikes  from `countLookAlikes`
 * @source our own choice; bounds set on samples and real photos
 * @rule WN18
 */
export function confidenceOf(evidence: Evidence, seen: OutlineSeen, lookAlikes: number): number {
  const { longShare, shortShare } = evidence;
  const shape =
    seen.outline === 'ellipse'
      ? weakestEighth(evidence.parts, seen.covered) *
        along(evidence.arc, arcRamp) *
        along(evidence.closeness, closenessRamp) *
        along(shortShare / longShare, aspectRamp) *
        along(evidence.overBright, ellipseGlowRamp) *
        along(evidence.contrast, ellipseContrastRamp)
      : weakestSide(evidence.parts) *
        along(evidence.support, supportRamp) *
        along(evidence.closeness, sideClosenessRamp) *
        along(evidence.leastContrast, leastContrastRamp) *
        along(evidence.overBright, rectangleGlowRamp) *
        along(evidence.contrast, contrastRamp);
  const size =
    along(longShare, longShareRamp) * along(shortShare, shortShareRamp) * along(evidence.shortSidePx, shortSidePxRamp);
  const doubt = along(evidence.skew, skewRamp) + along(lookAlikes, lookAlikesRamp);
  return shape * size * Math.max(0, 1 - doubt);
}
