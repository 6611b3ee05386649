import type { LinearPhoto } from '../../base/linear-photo';
import { createMask } from '../../base/plane';
import type { Corners, PhotoPoint } from '../../base/points';
import { closeGrey } from '../morphology';
import { type BrightRegion, brightRegions } from './bright-regions';
import { confidenceOf } from './confidence';
import type { SearchPass } from './edge-search';
import { darkShare, type Evidence, evidenceFor, overBrightSurroundings } from './evidence';
import { halfDiameters } from './fit-ellipse';
import { areaOf, boxAbout } from './hull';
import { type FittedOutline, fitRectangles, fitRounds, placesOf, type PassesFor } from './hypotheses';
import { countLookAlikes, plainPatches } from './look-alikes';
import { gridSampler, lightGrid, photoSampler } from './light-grid';
import { type Extent, extentOf, overlapOf } from './overlap';

/** A lit window that the search found. */
export interface Candidate {
  /** Top-left (the one nearest the photo's), top-right, bottom-right, bottom-left; for an ellipse, of the box about it. */
  readonly corners: Corners;
  readonly outline: 'rectangle' | 'ellipse';
  /** 0..1; below 0.5 it may well be something else. */
  readonly confidence: number;
}

/** Cells along the longer side of the reduced photo: a window of 4 % of it still has 25. */
const longSideCells = 640;
/** Regions that stand out less from their bright surroundings are not looked at closer. */
const leastOver = -0.1;
/** Print lines and pointers up to 4 cells wide (0.6 % of the frame) do not cut a window in two. */
const markRadiusCells = 2;

function boxOf(fitted: FittedOutline): readonly PhotoPoint[] {
  if (fitted.outline === 'rectangle') return fitted.corners;
  const { centre } = fitted.ellipse;
  const { across, down } = halfDiameters(fitted.ellipse, ...fitted.direction);
  return [
    [-1, -1],
    [1, -1],
    [1, 1],
    [-1, 1],
  ].map(([u, v]) => ({
    column: centre.column + u * across[0] + v * down[0],
    row: centre.row + u * across[1] + v * down[1],
  }));
}

export interface Finding extends Candidate {
  readonly evidence: Evidence;
  readonly fitted: FittedOutline;
}

/** Clockwise corners, begun with the one nearest the photo's top-left corner. */
function asRead(corners: readonly PhotoPoint[]): Corners {
  let first = 0;
  corners.forEach(({ column, row }, i) => {
    if (column + row < corners[first].column + corners[first].row) first = i;
  });
  return [0, 1, 2, 3].map((i) => corners[(first + i) % 4]) as unknown as Corners;
}

function findingOf(
  fitted: FittedOutline | null,
  photo: LinearPhoto,
  lightAt: SearchPass['lightAt'],
  patches: readonly Extent[],
): Finding | null {
  if (!fitted) return null;
  const box = boxOf(fitted);
  if (!(areaOf(box) > 0)) return null;
  const corners = asRead(box);
  const evidence = evidenceFor(lightAt, corners, placesOf(fitted), photo);
  return { corners, outline: fitted.outline, confidence: confidenceOf(evidence, fitted.outline, countLookAlikes(corners, patches)), evidence, fitted };
}

function withoutRepeats(regions: readonly BrightRegion[]): BrightRegion[] {
  const kept: BrightRegion[] = [];
  for (const region of regions) {
    if (!kept.some((one) => overlapOf(extentOf(one.hull), extentOf(region.hull)).ofUnion > 0.92)) kept.push(region);
  }
  return kept;
}

/** Of two outlines of one window: first the surer, then the closer to the edges; a cover's edge tells which way is up. */
function rankOf({ confidence, evidence, fitted }: Finding): number {
  const covered = fitted.outline === 'ellipse' && fitted.covered ? 0.02 : 0;
  return confidence * (0.5 + 0.5 * evidence.closeness + covered);
}

export const stats = { regions: 0, tried: 0 };
export function findAll(photo: LinearPhoto): Finding[] {
  const grid = lightGrid(photo, longSideCells);
  const { light, pxPerCell } = grid;
  const everywhere = createMask(light.width, light.height, 1);
  const filled = closeGrey(light, everywhere, markRadiusCells);
  const regions = withoutRepeats([
    ...brightRegions({ light: filled, pxPerCell }),
    ...brightRegions({ light, pxPerCell }),
  ]);
  stats.regions = regions.length; stats.tried = 0;
  const patches = plainPatches(regions);
  const coarse = gridSampler(grid);
  const fine = photoSampler(photo);
  const passesWith =
    (inside: number): PassesFor =>
    (shortSidePx) => {
      const tone = (value: number): number => Math.log(value + darkShare * inside);
      const plain = (value: number): number => value;
      const stepPx = Math.max(1, pxPerCell / 2);
      const leastDrop = 0.05;
      return [
        { lightAt: coarse, reachPx: Math.max(3 * pxPerCell, 0.12 * shortSidePx), stepPx, tone, leastDrop },
        { lightAt: coarse, reachPx: Math.max(2 * pxPerCell, 0.06 * shortSidePx), stepPx, tone, leastDrop },
        { lightAt: fine, reachPx: Math.max(2.5, 1.5 * pxPerCell), stepPx: 1, tone, leastDrop: 0.02 },
        { lightAt: fine, reachPx: Math.max(2.5, 1.5 * pxPerCell), stepPx: 1, tone: plain, leastDrop: 0.01 * inside },
      ];
    };
  const findings: Finding[] = [];
  for (const region of regions) {
    const { over, inside } = overBrightSurroundings(coarse, boxAbout(region.hull), photo);
    if (over < leastOver) continue;
    stats.tried++;
    const passes = passesWith(inside);
    for (const fitted of [...fitRectangles(region, passes), ...fitRounds(region, passes)]) {
      const finding = findingOf(fitted, photo, fine, patches);
      if (finding) findings.push(finding);
    }
  }
  findings.sort((a, b) => rankOf(b) - rankOf(a));
  const kept: Finding[] = [];
  for (const finding of findings) {
    if (!kept.some((one) => overlapOf(extentOf(one.corners), extentOf(finding.corners)).ofSmaller > 0.5)) kept.push(finding);
  }
  return kept.sort((a, b) => b.confidence - a.confidence);
}

export function findWindows(photo: LinearPhoto): Candidate[] {
  return findAll(photo)
    .filter(({ confidence }) => confidence > 0)
    .map(({ corners, outline, confidence }) => ({ corners, outline, confidence }));
}
