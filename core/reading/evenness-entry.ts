import { figure, missing, noReference, type Figure } from '../contract/figure';
import type { EvennessEntry, SampledPoints } from '../contract/readings';
import { classicFigures, type ClassicFigures } from './classic';
import { scoreEvenness } from './evenness';
import type { GlowMap } from './glow-map';
import { hiddenScoreUncertainty } from './hidden-score';
import { fivePoints, ninePoints, samplePoints, thirteenPoints, type PointSet } from './sampled-points';
import {
  coverageFactor,
  ratioUncertainty,
  scoreUncertainty,
  steepestUncertainty,
  variationUncertainty,
  type RatioGains,
  type UncertaintyBasis,
} from './uncertainty';
import { evennessWords } from './words';

export interface EvennessInput {
  readonly map: GlowMap;
  readonly basis: UncertaintyBasis;
  readonly viewingDistanceMm: number;
  /** Why no figure of evenness may be given; null when they may. */
  readonly refusal: string | null;
  /** Fixed points are those of a rectangle; in an ellipse five and thirteen would lie outside. */
  readonly isEllipse: boolean;
  /** Lit figures: the black between them hides nothing. */
  readonly isLit: boolean;
}

/** A score that what print hides leaves open by more than this plus-minus, points, says nothing: words change every 15 points. */
const mostHidden = 25;

/** Why the score of a small window is not known; the figures of what is seen still stand. @rule UN8 */
function hiddenReason(hidden: number, { leftOverRight }: ClassicFigures): string {
  const points = Math.round(coverageFactor * hidden);
  const open = `print hides too much of this small window: the score is open by ${points} points either way`;
  if (leftOverRight === null) return open;
  return `${open}; where it glows, left is ${Number(leftOverRight.toPrecision(2))} times as bright as right`;
}

/** A figure whose value may be absent. */
function given(value: number | null, uncertainty: (value: number) => number, absent: string): Figure {
  return value === null ? missing(absent) : figure(value, coverageFactor * uncertainty(value));
}

const gains = {
  extremes: { noise: 0.5, lens: 1, hidden: 0, base: 0.002 },
  percentiles: { noise: 0.1, lens: 1, hidden: 0, base: 0.004 },
  points: { noise: 0.3, lens: 1, hidden: 0, base: 0.003 },
  halves: { noise: 0.02, lens: 0, hidden: 0.015, base: 0.003 },
} as const satisfies Record<string, RatioGains>;

function sampledEntry(points: PointSet | string, basis: UncertaintyBasis): SampledPoints {
  if (typeof points === 'string') return { minOverMax: missing(points), values: null, plusMinus: null };
  const uncertainty = (ratio: number): number => ratioUncertainty(ratio, basis, gains.points);
  const minOverMax = given(points.minOverMax, uncertainty, 'fewer than two thirds of the points lie on glow');
  const plusMinus = points.values.map((value) => {
    if (value === null) return null;
    return value === 1 ? 0 : coverageFactor * uncertainty(value);
  });
  return { minOverMax, values: points.values, plusMinus };
}

function refusedEntry(reason: string): EvennessEntry {
  const none = missing(reason);
  const points: SampledPoints = { minOverMax: none, values: null, plusMinus: null };
  return {
    score: none,
    words: `no verdict: ${reason}`,
    toReference: missing(noReference),
    visibleUnevenness: null,
    minOverMax: none,
    p5OverP95: none,
    coefficientOfVariation: none,
    ninePoint: points,
    fivePoint: points,
    thirteenPoint: points,
    steepestPercentPerMm: none,
    leftOverRight: none,
    topOverBottom: none,
  };
}

function classicEntries(classic: ClassicFigures, basis: UncertaintyBasis) {
  const half = 'one half of the window has no glow';
  const ofHalves = (ratio: number): number => ratioUncertainty(ratio, basis, gains.halves);
  return {
    minOverMax: given(classic.minOverMax, (r) => ratioUncertainty(r, basis, gains.extremes), ''),
    p5OverP95: given(classic.p5OverP95, (r) => ratioUncertainty(r, basis, gains.percentiles), ''),
    coefficientOfVariation: given(classic.coefficientOfVariation, (cv) => variationUncertainty(cv, basis), ''),
    steepestPercentPerMm: given(classic.steepestPercentPerMm, (g) => steepestUncertainty(g, basis), ''),
    leftOverRight: given(classic.leftOverRight, ofHalves, half),
    topOverBottom: given(classic.topOverBottom, ofHalves, half),
  };
}

/**
 * Every figure of evenness with its plus-minus, or the reason why there are none.
 *
 * @returns the entry of the contract, and the visible unevenness as a plane (null when refused)
 * @rule RD4
 */
export function evennessEntry(input: EvennessInput) {
  const { map, basis, refusal } = input;
  if (refusal !== null) return { entry: refusedEntry(refusal), residual: null };
  const classic = classicFigures(map);
  if (!classic) return { entry: refusedEntry('there is no light in the glow'), residual: null };
  const { pxPerMm, borderMm } = map;
  const options = { pxPerMm, borderMm, viewingDistanceMm: input.viewingDistanceMm };
  const { score, visibleUnevenness, residual } = scoreEvenness(map.relLuminance, map.glow, options);
  const hidden = input.isLit ? 0 : hiddenScoreUncertainty(map, score, options);
  const tooHidden = coverageFactor * hidden > mostHidden ? hiddenReason(hidden, classic) : null;
  const inEllipse = 'these points are those of a rectangle; an ellipse has no corners';
  const entry: EvennessEntry = {
    score: given(
      tooHidden === null ? score : null,
      (value) => Math.hypot(scoreUncertainty(value, basis), hidden),
      tooHidden ?? '',
    ),
    words: tooHidden === null ? evennessWords(score) : `no verdict: ${tooHidden}`,
    toReference: missing(noReference),
    visibleUnevenness,
    ...classicEntries(classic, basis),
    ninePoint: sampledEntry(samplePoints(map, ninePoints), basis),
    fivePoint: sampledEntry(input.isEllipse ? inEllipse : samplePoints(map, fivePoints), basis),
    thirteenPoint: sampledEntry(input.isEllipse ? inEllipse : samplePoints(map, thirteenPoints), basis),
  };
  return { entry, residual };
}
