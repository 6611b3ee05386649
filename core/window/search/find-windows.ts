import type { LinearPhoto } from '../../base/linear-photo';
import { createMask } from '../../base/plane';
import type { Corners, PhotoPoint } from '../../base/points';
import { closeGrey } from '../morphology';
import { type BrightRegion, brightRegions } from './bright-regions';
import { confidenceOf } from './confidence';
import { type Evidence, evidenceFor } from './evidence';
import { frameReachShare, glowOver, type Surroundings } from './glow-over';
import { boxAbout, turnOf } from './hull';
import { cornersOf, type FittedOutline, fitRectangles, fitRounds, placesOf } from './hypotheses';
import { gridSampler, type LightGrid, lightGrid, photoSampler } from './light-grid';
import { countLookAlikes, plainPatches } from './look-alikes';
import { areBeside, type Extent, extentOf, overlapOf } from './overlap';
import { type LookedAt, searchPasses } from './search-passes';

/** A lit window that the search found. */
export interface Candidate {
  /** Top-left (the one nearest the photo's), top-right, bottom-right, bottom-left; for an ellipse, of the box about it. */
  readonly corners: Corners;
  readonly outline: 'rectangle' | 'ellipse';
  /** 0..1; below 0.5 it may well be something else. */
  readonly confidence: number;
}

/** A candidate with what speaks for it. */
export interface Finding extends Candidate {
  readonly evidence: Evidence;
  readonly fitted: FittedOutline;
}

/** Cells along the longer side of the reduced photo: a window of 5 % of it still has 32. */
const longSideCells = 640;
/** Print lines and pointers up to 4 cells wide (0.6 % of the frame) do not cut a window in two. */
const markRadiusCells = 2;
/** Regions that do not even reach their bright surroundings, in ln, are not looked at closer. */
const leastGlowOver = -0.1;
/** Two regions of so much in common give the same outline. */
const sameRegionOverlap = 0.92;
/** Two outlines of so much in common cannot both be windows. */
const sameWindowOverlap = 0.5;
/** What is less sure than that is not worth a look. */
const leastConfidence = 0.01;
/** From here on an outline is taken for a lit window. */
const sureConfidence = 0.5;
/** A panel has a few windows; more things that shine are panes, keys or patches, which do not vouch for each other. */
const mostWindows = 4;
/** What is nearer is not another window but the same beyond a pointer: share of the shorter side. */
const leastGapShare = 0.12;
/** Corners may lie so far outside the photo, px, and two sides meet at no sharper an angle (sine of 45 degrees). */
const outsideAllowancePx = 2;
const leastCornerSine = 0.7;

/** Clockwise corners, begun with the one nearest the photo's top-left corner. */
function asRead(corners: readonly PhotoPoint[]): Corners {
  let first = 0;
  corners.forEach(({ column, row }, i) => {
    if (column + row < corners[first].column + corners[first].row) first = i;
  });
  return [0, 1, 2, 3].map((i) => corners[(first + i) % 4]) as unknown as Corners;
}

/** Whether corners run clockwise within the photo, with angles that a window can be measured by. */
function areMeasurable(corners: readonly PhotoPoint[], { widthPx, heightPx }: LinearPhoto): boolean {
  return corners.every((corner, i) => {
    const next = corners[(i + 1) % 4];
    const before = corners[(i + 3) % 4];
    const far = Math.max(-corner.column, corner.column - widthPx, -corner.row, corner.row - heightPx);
    const [ax, ay] = [next.column - corner.column, next.row - corner.row];
    const [bx, by] = [before.column - corner.column, before.row - corner.row];
    const sine = turnOf(corner, next, before) / (Math.hypot(ax, ay) * Math.hypot(bx, by));
    return far <= outsideAllowancePx && sine >= leastCornerSine;
  });
}

function withoutRepeats(regions: readonly BrightRegion[]): BrightRegion[] {
  const kept: { region: BrightRegion; extent: Extent }[] = [];
  for (const region of regions) {
    const extent = extentOf(region.hull);
    if (kept.some((one) => overlapOf(one.extent, extent).ofUnion > sameRegionOverlap)) continue;
    kept.push({ region, extent });
  }
  return kept.map(({ region }) => region);
}

/** Bright regions of the reduced light, with marks filled and as it is. */
function regionsOf(grid: LightGrid): BrightRegion[] {
  const { light, pxPerCell } = grid;
  const filled = closeGrey(light, createMask(light.width, light.height, 1), markRadiusCells);
  return withoutRepeats([...brightRegions({ light: filled, pxPerCell }), ...brightRegions(grid)]);
}

function fittedTo(region: BrightRegion, surroundings: Surroundings, lights: LookedAt): FittedOutline[] {
  const { over, ownLight } = glowOver(lights.coarse, boxAbout(region.hull), surroundings);
  if (over < leastGlowOver) return [];
  const passesFor = (shortSidePx: number) => searchPasses(lights, ownLight, shortSidePx);
  return [...fitRectangles(region, passesFor), ...fitRounds(region, passesFor)];
}

/** Of two outlines of one window: first the surer, then the closer to the edges; a cover's edge tells which way is up. */
function rankOf({ confidence, evidence, fitted }: Finding): number {
  const covered = fitted.outline === 'ellipse' && fitted.covered ? 0.02 : 0;
  return confidence * (0.5 + 0.5 * evidence.closeness + covered);
}

/** The best of those that lie over each other. */
function bestOfEach(findings: readonly Finding[]): Finding[] {
  const kept: Finding[] = [];
  for (const finding of [...findings].sort((a, b) => rankOf(b) - rankOf(a))) {
    const extent = extentOf(finding.corners);
    if (kept.some((one) => overlapOf(extentOf(one.corners), extent).ofSmaller > sameWindowOverlap)) continue;
    kept.push(finding);
  }
  return kept.sort((a, b) => b.confidence - a.confidence);
}

/** A photo as the search sees it. */
interface SearchedPhoto {
  readonly photo: LinearPhoto;
  readonly lights: LookedAt;
  readonly patches: readonly Extent[];
}

/** The outlines of a region, judged with the lit windows beside it left out of its surroundings. */
function judged(region: BrightRegion, searched: SearchedPhoto, litBeside: readonly Corners[]): Finding[] {
  const { photo, lights, patches } = searched;
  const surroundings = { widthPx: photo.widthPx, heightPx: photo.heightPx, litBeside };
  return fittedTo(region, surroundings, lights).flatMap((fitted): Finding[] => {
    const corners = asRead(cornersOf(fitted));
    if (!areMeasurable(corners, photo)) return [];
    const evidence = evidenceFor(lights.fine, corners, placesOf(fitted), surroundings);
    const confidence = confidenceOf(evidence, fitted, countLookAlikes(corners, patches));
    return [{ corners, outline: fitted.outline, confidence, evidence, fitted }];
  });
}

/** What would be sure in a dark room: two equal windows side by side make each other's surroundings bright. */
function litInDarkness(findings: readonly Finding[], patches: readonly Extent[]): Corners[] {
  const inDarkness = findings.map((one) => {
    const evidence = { ...one.evidence, overBright: Infinity };
    return { ...one, confidence: confidenceOf(evidence, one.fitted, countLookAlikes(one.corners, patches)) };
  });
  const lit = bestOfEach(inDarkness.filter(({ confidence }) => confidence >= sureConfidence));
  return lit.length > mostWindows ? [] : lit.map(({ corners }) => corners);
}

/** Regions beside another lit window, judged anew without its light: next to a bright window a dim one is lit all the same. */
function besideLit(regions: readonly BrightRegion[], searched: SearchedPhoto, lit: readonly Corners[]): Finding[] {
  return regions.flatMap((region) => {
    const extent = extentOf(region.hull);
    const shortPx = Math.min(extent.right - extent.left, extent.bottom - extent.top);
    const [leastPx, mostPx] = [shortPx * leastGapShare, shortPx * frameReachShare];
    const beside = lit.filter((corners) => areBeside(extentOf(corners), extent, leastPx, mostPx));
    return beside.length === 0 ? [] : judged(region, searched, beside);
  });
}

/** As `findWindows`, with what speaks for each, for those who set the bounds of the confidence. @rule WN12 */
export function findWithEvidence(photo: LinearPhoto): Finding[] {
  const { region, widthPx, heightPx } = photo;
  if (region.column !== 0 || region.row !== 0 || region.width !== widthPx || region.height !== heightPx) {
    throw new RangeError('the search needs the whole photo');
  }
  const grid = lightGrid(photo, longSideCells);
  const lights = { coarse: gridSampler(grid), fine: photoSampler(photo), pxPerCell: grid.pxPerCell };
  const regions = regionsOf(grid);
  const searched = { photo, lights, patches: plainPatches(regions) };
  const alone = regions.flatMap((one) => judged(one, searched, []));
  const findings = [...alone, ...besideLit(regions, searched, litInDarkness(alone, searched.patches))];
  return bestOfEach(findings.filter(({ confidence }) => confidence >= leastConfidence));
}

/**
 * Finds the lit windows of a photo.
 *
 * Bright regions of a reduced copy (at most 640 cells long) at 32 levels of light give rough outlines; each is fitted as
 * four sides and as an ellipse to the strongest edges near it, at last on the photo's own pixels; what is seen along and about
 * the outline gives the confidence; of outlines that lie over each other the best is kept. A window cut by the frame is
 * not found. Corners are those of the glow's sharp edge; good to 0.3 % of the width on the samples. The photo may be
 * reduced beforehand; then corners are in its pixels.
 *
 * For a round face, the corners are those of the parallelogram whose inscribed ellipse it is, with sides along a straight cover
 * or, without one, along the photo's rows: a full circle does not tell how it is turned.
 *
 * @param photo  the whole upright photo; not altered
 * @returns best first; empty when there is none
 * @throws RangeError when the photo is only a region (a defect)
 * @source our own choice (see the parts)
 * @rule WN12
 */
export function findWindows(photo: LinearPhoto): Candidate[] {
  return findWithEvidence(photo).map(({ corners, outline, confidence }) => ({ corners, outline, confidence }));
}
