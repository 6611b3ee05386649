import { blurMasked } from '../base/gaussian';
import { assertSameShape, createMask, createPlane, type Mask, type Plane } from '../base/plane';
import { medianOf } from '../base/stats';
import { nearestCells } from '../window/nearest-cell';
import type { GlowMap } from './glow-map';
import { darkTo, hotFrom, sideTowards, sizeShare, withoutFarEnds, type LampSide, type Spot } from './spots';
import { hillsOf, type Hill } from './spots-hills';
import { axesOf, centroidOf, planeOver, type GridVector } from './spots-region';

/** Smoothing of light and contrast over lit cells, mm: as fine as the score looks. */
const smoothingMm = 0.75;
/** Contrast that is called a spot, and light that is not told apart from figure to figure, ln units: 5 %. */
const leastContrast = 0.05;
/** A centre that may lie farther off than this was not seen itself, mm (root mean square). */
const seenWithinMm = 0.5;
/** Spots under this diameter have a ratio of "at least", mm. */
const smallMm = 5;
/** A plane that explains more of ln of light over all figures makes a lean. */
const leanFrom = 0.8;

/** What the figures show, and which figure each cell of the window is nearest to. */
interface FigureField {
  readonly pxPerMm: number;
  readonly lit: Mask;
  /** Lit cells and the black among them, less the border: where a spot's centre may lie. */
  readonly inside: Mask;
  /** Index of the nearest lit cell. */
  readonly nearest: Int32Array;
  /** Of the lit cells: ln of light over the median, and the visible residual, smoothed over lit cells. */
  readonly logRatio: Plane;
  readonly contrast: Plane;
}

function smoothedOver(lit: Mask, pxPerMm: number, valueAt: (cell: number) => number): Plane {
  const plane = createPlane(lit.width, lit.height);
  for (let i = 0; i < lit.values.length; i++) if (lit.values[i]) plane.values[i] = valueAt(i);
  return blurMasked(plane, lit, smoothingMm * pxPerMm).blurred;
}

function figureField({ pxPerMm, glow, hidden, relLuminance }: GlowMap, residual: Plane): FigureField | null {
  assertSameShape(glow, residual);
  const lit = createMask(glow.width, glow.height);
  const inside = createMask(glow.width, glow.height);
  for (let i = 0; i < glow.values.length; i++) {
    const isLit = glow.values[i] === 1 && Number.isFinite(residual.values[i]) && relLuminance.values[i] > 0;
    lit.values[i] = isLit ? 1 : 0;
    inside.values[i] = isLit || hidden.values[i] ? 1 : 0;
  }
  if (!lit.values.includes(1)) return null;
  const logRatio = smoothedOver(lit, pxPerMm, (cell) => Math.log(relLuminance.values[cell]));
  const contrast = smoothedOver(lit, pxPerMm, (cell) => residual.values[cell]);
  const middle = medianOf(Array.from(logRatio.values).filter((_, i) => lit.values[i]));
  for (let i = 0; i < logRatio.values.length; i++) logRatio.values[i] -= middle;
  return { pxPerMm, lit, inside, nearest: nearestCells(lit), logRatio, contrast };
}

/** Where the light leans to when one plane explains it over all figures; null when none does. */
function leanOf({ lit, logRatio }: FigureField): LampSide | null {
  const cells = Array.from(lit.values.keys()).filter((cell) => lit.values[cell]);
  const { slope, explained } = planeOver(cells, logRatio);
  return explained > leanFrom ? sideTowards(slope) : null;
}

/** Distance of a cell's middle from a place on the grid, cells. */
function distanceTo({ x, y }: GridVector, cell: number, width: number): number {
  const row = Math.floor(cell / width);
  return Math.sqrt((cell - row * width + 0.5 - x) ** 2 + (row + 0.5 - y) ** 2);
}

/**
 * Radius of the circle about a place that best parts lit cells above half of the top from those below, in cells: the fewest on the
 * wrong side, the middle of all circles that do so.
 */
function halfRadius(lit: readonly number[], isHigh: (cell: number) => boolean, place: GridVector, width: number) {
  const byDistance = lit.map((cell) => ({ away: distanceTo(place, cell, width), isHigh: isHigh(cell) }));
  byDistance.sort((a, b) => a.away - b.away);
  let wrong = byDistance.filter((one) => one.isHigh).length;
  let least = wrong;
  let [nearest, farthest] = [0, byDistance[0].away];
  byDistance.forEach((one, i) => {
    wrong += one.isHigh ? -1 : 1;
    if (wrong > least) return;
    const next = i + 1 < byDistance.length ? byDistance[i + 1].away : one.away;
    if (wrong < least) nearest = one.away;
    least = wrong;
    farthest = next;
  });
  return (nearest + farthest) / 2;
}

function describe(kind: Spot['kind'], { cells, level }: Hill, heights: Plane, field: FigureField): Spot {
  const { pxPerMm, lit, logRatio, contrast, nearest } = field;
  const { width, values } = heights;
  const candidates = cells.filter((cell) => values[cell] >= level - leastContrast);
  const place = centroidOf(candidates, width, () => 1);
  const meanSquare = candidates.reduce((sum, cell) => sum + distanceTo(place, cell, width) ** 2, 0) / candidates.length;
  const unseenMm = Math.sqrt(meanSquare) / pxPerMm;
  const isHigh = (cell: number): boolean => values[cell] > sizeShare * level;
  const litCells = cells.filter((cell) => lit.values[cell]);
  const diameterMm = (2 * halfRadius(litCells, isHigh, place, width)) / pxPerMm;
  const peak = nearest[cells[0]];
  return {
    kind,
    isLean: false,
    xMm: place.x / pxPerMm,
    yMm: place.y / pxPerMm,
    openMm: unseenMm,
    diameterMm,
    ratioToGlow: Math.exp(logRatio.values[peak]),
    atLeast: diameterMm < smallMm || unseenMm > seenWithinMm,
    ...axesOf(cells.filter(isHigh), width),
    lampSide: null,
    visibleContrast: Math.abs(contrast.values[peak]),
  };
}

/**
 * Hot and dark spots behind lit figures on black, the most visible first. Only the figures show the light, so that a spot is told
 * with what they leave open.
 *
 * Every cell takes ln of light over the median of the figures from its nearest lit cell; hills of that (see `hillsOf`) are spots
 * when their top has 1.08 (0.92) times the median and a visible contrast of 0.05. Light falls with the distance from a spot's
 * centre, so the centre is nearer to the brightest lit cell than to any other: it lies among the cells that take their light from one
 * within 5 % of the top. Place: their middle; `unseenMm`: their root mean square distance from it. Diameter: of the circle that best
 * parts the hill's lit cells above half of the top from the others; axes: of all its cells above half. Ratio: of the brightest
 * figure; "at least" when `unseenMm` is over 0.5 mm or the diameter under 5 mm. A plane that explains more than 80 % of ln of light over all figures makes a lean.
 *
 * @param map       of lit figures; `hidden` is the black between them; not altered
 * @param residual  of `scoreEvenness`, NaN where nothing is lit; not altered
 * @source our own choice, tried on rendered dials
 * @rule SP7
 */
export function findLitSpots(map: GlowMap, residual: Plane): Spot[] {
  const field = figureField(map, residual);
  if (!field) return [];
  const lean = leanOf(field);
  const found = (['hot', 'dark'] as const).flatMap((kind) => {
    const sign = kind === 'hot' ? 1 : -1;
    const heights = createPlane(field.inside.width, field.inside.height);
    for (let i = 0; i < heights.values.length; i++) {
      if (field.inside.values[i]) heights.values[i] = sign * field.logRatio.values[field.nearest[i]];
    }
    const hills = hillsOf(heights, field.inside, leastContrast);
    return hills
      .filter(({ cells }) => sign * field.contrast.values[field.nearest[cells[0]]] >= leastContrast)
      .map((hill) => ({ ...describe(kind, hill, heights, field), isLean: lean !== null, lampSide: lean }));
  });
  const standingOut = found.filter(({ kind, ratioToGlow }) =>
    kind === 'hot' ? ratioToGlow >= hotFrom : ratioToGlow <= darkTo,
  );
  return withoutFarEnds(standingOut).sort((a, b) => b.visibleContrast - a.visibleContrast);
}
