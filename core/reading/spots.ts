import type { Plane } from '../base/plane';
import type { SpotEntry } from '../contract/readings';
import type { GlowMap } from './glow-map';
import { spotField, type SpotField } from './spots-field';
import { spotPeaks, type SpotPeak } from './spots-peaks';
import {
  axesOf,
  balancedCentroid,
  borderTouched,
  centroidOf,
  isNearest,
  planeOver,
  regionAbove,
  type GridVector,
} from './spots-region';
import { coverageFactor, ratioUncertainty, type UncertaintyBasis } from './uncertainty';

/** Where the lamp sits as seen from the spot, in words that stand after "lamp towards the". */
export type LampSide = 'left' | 'right' | 'top' | 'bottom' | 'top left' | 'top right' | 'bottom left' | 'bottom right';

/** A place that is visibly brighter or darker than the glow. */
export interface Spot {
  readonly kind: 'hot' | 'dark';
  /** The light leans to one side here without a peak of its own: the spot is cut by the edge, or there is none. */
  readonly isLean: boolean;
  readonly xMm: number;
  readonly yMm: number;
  /**
   * What the spot's own shape leaves open of its place, mm (k = 1): nothing is lit where the centre may lie, or the top is flat and
   * brightest elsewhere.
   */
  readonly openMm: number;
  readonly diameterMm: number;
  /** Light over the median of the glow, as the file's own curve reads it. */
  readonly ratioToGlow: number;
  /** The spot is so small that smoothing has lowered its peak. */
  readonly atLeast: boolean;
  /** 1 = round. */
  readonly elongation: number;
  /** Of the long axis, clockwise from x, 0 <= angle < 180. */
  readonly angleDeg: number;
  readonly lampSide: LampSide | null;
  /** Peak of the visible contrast, ln units, above 0. */
  readonly visibleContrast: number;
}

export interface SpotOptions {
  /** Spots under this diameter have a ratio of "at least", mm. */
  readonly smallMm: number;
}

const defaults: SpotOptions = { smallMm: 5 };
/** Least and largest light over the median of the glow that a hot and a dark spot have. */
export const hotFrom = 1.08;
export const darkTo = 0.92;
/** Share of the peak's contrast above which the place is taken, and the size. */
const placeShare = 0.6;
export const sizeShare = 0.5;
/** Share of the height, ln of light, above which a hot spot is at its brightest. */
const brightestShare = 0.95;
/** The brightest part of a spot with one top lies within this of its place, mm; noise does as much. */
const oneTopMm = 0.6;
/** A peak that smoothing has lowered by more than this is "at least", ln units. */
const mostLoss = 0.05;
/** A plane that explains more of ln of light than this makes a lean. */
const leanFrom = 0.8;
/** A border that cuts the inner part over more than this share of its diameter has cut off the lamp's side. */
const cutShare = 0.75;
/**
 * Light of an unknown tone curve goes to this power in a ratio: the middle between a plain sRGB photo and one with the contrast of 1.1
 * that many cameras add (S curves of strength 0.2 to 0.5: 1.07 to 1.19; the published curve of one camera: 1.19, codes 60 to 240).
 */
const unknownCurveExponent = 0.95;
/** The tail says something from 0.3 mm and 5 % of the size on. */
const leastTailMm = 0.3;
const leastTailShare = 0.05;

/** A direction in words: along one axis unless the other has at least half as much of it. */
export function sideTowards({ x, y }: GridVector): LampSide {
  const along = x < 0 ? 'left' : 'right';
  const across = y < 0 ? 'top' : 'bottom';
  if (Math.abs(y) < 0.5 * Math.abs(x)) return along;
  if (Math.abs(x) < 0.5 * Math.abs(y)) return across;
  return `${across} ${along}`;
}

/** What the border takes of a spot's inner part: the direction of the cut, null when it is short or on both sides alike. */
function cutOf(core: readonly number[], field: SpotField): GridVector | null {
  const cut = borderTouched(core, field);
  const diameterPx = 2 * Math.sqrt(core.length / Math.PI);
  return Math.sqrt(cut.x ** 2 + cut.y ** 2) > cutShare * diameterPx ? cut : null;
}

/** Against the tail, which points where the lamp is aimed; null when there is hardly any. */
function sideOfTail(tail: GridVector, diameterMm: number, pxPerMm: number): LampSide | null {
  const tailMm = Math.sqrt(tail.x ** 2 + tail.y ** 2) / pxPerMm;
  if (tailMm < leastTailMm || tailMm < leastTailShare * diameterMm) return null;
  return sideTowards({ x: -tail.x, y: -tail.y });
}

/** Where the contrast is largest: the inner part's weighted mean, corrected for a cut. */
function placeOf(core: readonly number[], contrast: Plane, search: Search, cut: GridVector | null): GridVector {
  const { width, values } = contrast;
  const { peak, others, field } = search;
  const level = placeShare * values[peak.row * width + peak.column];
  const weightAt = (cell: number): number => values[cell] - level;
  if (!cut) return centroidOf(core, width, weightAt);
  const belongs = (column: number, row: number): boolean =>
    column >= 0 &&
    column < width &&
    field.inside.values[row * width + column] === 1 &&
    isNearest(column, row, peak, others);
  return balancedCentroid(core, width, weightAt, belongs);
}

/**
 * What a flat top leaves open of a hot spot's place, mm: where its brightest part lies d away, the centre is as likely there as
 * here, root mean square d / sqrt 2; 0 up to 0.6 mm.
 *
 * @source our own choice, from a rendered lamp under a shade
 */
function openOf(place: GridVector, { peak, others, field }: Search): number {
  const { logRatio, pxPerMm } = field;
  const brightest = centroidOf(regionAbove(logRatio, peak, others, brightestShare), logRatio.width, () => 1);
  const apartMm = Math.sqrt((brightest.x - place.x) ** 2 + (brightest.y - place.y) ** 2) / pxPerMm;
  return Math.sqrt(Math.max(0, apartMm ** 2 - oneTopMm ** 2) / 2);
}

/** One peak among those of its kind. */
interface Search {
  readonly peak: SpotPeak;
  readonly others: readonly SpotPeak[];
  readonly field: SpotField;
}

function describe(kind: Spot['kind'], contrast: Plane, search: Search, { smallMm }: SpotOptions): Spot {
  const { peak, others, field } = search;
  const { pxPerMm, logRatio, smoothingLoss } = field;
  const { width, values } = contrast;
  const at = peak.row * width + peak.column;
  const core = regionAbove(contrast, peak, others, placeShare);
  const half = regionAbove(contrast, peak, others, sizeShare);
  const diameterMm = (2 * Math.sqrt(half.length / Math.PI)) / pxPerMm;
  const plane = planeOver(half, logRatio);
  const isLean = plane.explained > leanFrom;
  // A dark end is a whole area: its middle tells more than its darkest corner.
  const cut = isLean || kind === 'dark' ? null : cutOf(core, field);
  const place = placeOf(core, contrast, search, cut);
  const middle = centroidOf(half, width, () => 1);
  const tail = { x: middle.x - place.x, y: middle.y - place.y };
  const ofPeak = cut ? sideTowards(cut) : sideOfTail(tail, diameterMm, pxPerMm);
  return {
    kind,
    isLean,
    xMm: place.x / pxPerMm,
    yMm: place.y / pxPerMm,
    openMm: kind === 'hot' && !isLean ? openOf(place, search) : 0,
    diameterMm,
    ratioToGlow: Math.exp(logRatio.values[at]),
    atLeast: diameterMm < smallMm || Math.abs(smoothingLoss.values[at]) > mostLoss,
    ...axesOf(half, width),
    lampSide: isLean ? sideTowards(plane.slope) : kind === 'hot' ? ofPeak : null,
    visibleContrast: values[at],
  };
}

/** A lean has a bright and a dark end: the dark one says nothing more once the bright one is told. */
export function withoutFarEnds(spots: readonly Spot[]): Spot[] {
  const told = spots.filter((spot) => spot.isLean && spot.kind === 'hot').map((spot) => spot.lampSide);
  return spots.filter((spot) => !(spot.isLean && spot.kind === 'dark' && told.includes(spot.lampSide)));
}

/**
 * Hot and dark spots of the glow, the most visible first.
 *
 * Searched on the visible residual (see `scoreEvenness`), print filled, smoothed over 0.75 mm. Hot from 1.08 times the median
 * of the glow, dark to 0.92 times. Place: centroid of the contrast above 60 % of its peak; diameter: of the disk with the area above
 * 50 %; axes: of that area. Lamp side of a hot spot: the edge that cuts its inner part, else opposite to the tail (area's
 * centre less place) from 0.3 mm and 5 % of the diameter on. When a plane explains more than 80 % of ln of light over the
 * area, it is a lean, and its lamp side is where light grows.
 *
 * Truth of rendered windows: place within 0.45 mm. Below 5 mm, and where smoothing once more would take more than 5 % of
 * the peak, smoothing has lowered the ratio: "at least". Two spots are told
 * apart from 3 standard deviations on.
 *
 * @param map       not altered
 * @param residual  on the map's grid, ln units, NaN where there is no glow; not altered
 * @returns empty when nothing stands out, or nothing glows
 * @source our own choice, tried on rendered windows
 * @rule SP1, SP2, SP3, SP4, SP5
 */
export function findSpots(map: GlowMap, residual: Plane, options: SpotOptions = defaults): Spot[] {
  const field = spotField(map, residual);
  if (!field) return [];
  const found = spotPeaks(field).flatMap(({ kind, contrast, peaks }) =>
    peaks.map((peak) => {
      const others = peaks.filter((other) => other !== peak);
      return describe(kind, contrast, { peak, others, field }, options);
    }),
  );
  const standingOut = found.filter(({ kind, ratioToGlow }) =>
    kind === 'hot' ? ratioToGlow >= hotFrom : ratioToGlow <= darkTo,
  );
  return withoutFarEnds(standingOut).sort((a, b) => b.visibleContrast - a.visibleContrast);
}

/**
 * Standard uncertainty (k = 1) of a spot's place along each axis: sqrt(u^2 + 0.3^2 + open^2) mm.
 *
 * @param registrationMm  standard uncertainty of the window's place in the photo, mm
 * @param openMm          see `Spot`, mm
 * @source JCGM 100 for the sum; 0.3 mm: largest errors on rendered photos were 0.45 mm
 * @rule SP6
 */
export function spotPlaceUncertaintyMm(registrationMm: number, openMm = 0): number {
  return Math.sqrt(registrationMm ** 2 + 0.3 ** 2 + openMm ** 2);
}

/**
 * The ratio as it is told: of an unknown tone curve r^0.95, else as it was read.
 *
 * @source our own choice: the error of cameras that add contrast is halved, a plain sRGB photo is read 5 % low at a ratio of 3
 * @rule SP6
 */
function spotRatio(read: number, { response }: UncertaintyBasis): number {
  return response === 'unknown' ? Math.pow(read, unknownCurveExponent) : read;
}

/**
 * Standard uncertainty (k = 1) of a spot's ratio to the glow: 3 %, and what the tone curve, room light and lens add.
 *
 * @source 3 %: smoothing and print, from rendered photos with truth; the rest as for every ratio
 * @rule SP6
 */
export function spotRatioUncertainty(ratio: number, basis: UncertaintyBasis): number {
  return ratioUncertainty(ratio, basis, { noise: 0.1, lens: 1, hidden: 0, base: 0.03 * ratio });
}

/**
 * What the ratio of a small spot exceeds (hot) or stays under (dark): as it was read, less twice what tone curve, room light, lens and
 * noise leave in doubt. Smoothing takes only away from it, so its 3 % are no part of that. Not beyond the glow itself.
 *
 * @rule SP6
 */
export function spotRatioBound(kind: Spot['kind'], ratio: number, basis: UncertaintyBasis): number {
  const doubt = coverageFactor * ratioUncertainty(ratio, basis, { noise: 0.1, lens: 1, hidden: 0, base: 0 });
  return kind === 'hot' ? Math.max(1, ratio - doubt) : Math.min(1, ratio + doubt);
}

/**
 * A spot in the contract's shape.
 *
 * @param registrationMm  standard uncertainty of the window's place in the photo, mm
 * @rule SP6
 */
export function spotEntry(spot: Spot, registrationMm: number, basis: UncertaintyBasis): SpotEntry {
  const { kind, xMm, yMm, diameterMm, atLeast, elongation, angleDeg, lampSide } = spot;
  const plusMinusMm = coverageFactor * spotPlaceUncertaintyMm(registrationMm, spot.openMm);
  const ratio = spotRatio(spot.ratioToGlow, basis);
  const ratioToGlow = atLeast ? spotRatioBound(kind, spot.ratioToGlow, basis) : ratio;
  const ratioPlusMinus = atLeast ? null : coverageFactor * spotRatioUncertainty(ratio, basis);
  const entry = {
    kind,
    xMm,
    yMm,
    plusMinusMm,
    diameterMm,
    ratioToGlow,
    ratioPlusMinus,
    atLeast,
    elongation,
    angleDeg,
  };
  return lampSide === null ? entry : { ...entry, lampSide };
}
