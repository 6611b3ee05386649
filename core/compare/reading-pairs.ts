import type { ComparedFigure, Pair } from '../contract/comparison';
import { figure, missing, type Figure } from '../contract/figure';
import type { LightKind } from '../contract/light';
import { coverageFactor } from '../reading/uncertainty';
import { distanceUncertainty } from './colour-difference';
import type { ComparedWindow } from './compared-window';
import { sharedError } from './like-photos';
import { luminanceDifference } from './luminance-difference';
import { leastIndexDifference, leastScoreDifference, leastUvDifference, tellApart, type Measured } from './pairs';

type FigureOf = (window: ComparedWindow) => Figure;

const scoreOf: FigureOf = ({ reading }) => reading.evenness.score;
const indexOf: FigureOf = ({ reading }) => reading.redPrint.index;
const distanceOf: FigureOf = ({ reading }) => reading.colour.toReferenceUv;

/** A figure as value and standard uncertainty; null when it has no value. */
function measuredOf({ value, plusMinus }: Figure): Measured | null {
  return value === null || plusMinus === null ? null : { value, uncertainty: plusMinus / coverageFactor };
}

/** Why a difference cannot be given: what the first figure that is missing says, and whose it is. */
function without(a: ComparedWindow, b: ComparedWindow, of: FigureOf): ComparedFigure {
  const one = of(a).value === null ? a : b;
  return { difference: missing(`${one.reading.name}: ${of(one).reason ?? 'not measured'}`), toldApart: false };
}

function compared(a: ComparedWindow, b: ComparedWindow, of: FigureOf, rho: number, least: number): ComparedFigure {
  const [ofA, ofB] = [measuredOf(of(a)), measuredOf(of(b))];
  if (!ofA || !ofB) return without(a, b, of);
  const { difference, uncertainty, toldApart } = tellApart(ofA, ofB, rho, least);
  return { difference: figure(difference, coverageFactor * uncertainty), toldApart };
}

/** Both are stated to be of one kind of light, which the camera's sensitivities mistake alike. */
function isSameLight(a: ComparedWindow, b: ComparedWindow): boolean {
  const kind: LightKind = a.facts.basis.light;
  return kind !== 'unknown' && kind === b.facts.basis.light;
}

function compareColour(a: ComparedWindow, b: ComparedWindow, reference: ComparedWindow | null, isAlike: boolean) {
  const [ofA, ofB] = [measuredOf(distanceOf(a)), measuredOf(distanceOf(b))];
  if (!ofA || !ofB || !reference) return without(a, b, distanceOf);
  const difference = ofB.value - ofA.value;
  const plusMinus = coverageFactor * distanceUncertainty(a, b, reference, isAlike);
  const size = Math.abs(difference);
  return { difference: figure(difference, plusMinus), toldApart: size > plusMinus && size > leastUvDifference };
}

function compareLuminance(a: ComparedWindow, b: ComparedWindow): ComparedFigure {
  const difference = luminanceDifference(a, b);
  const { value, plusMinus } = difference;
  return { difference, toldApart: value !== null && plusMinus !== null && Math.abs(value) > plusMinus };
}

/**
 * Two readings of one window compared: b less a, and what can be told apart.
 *
 * Told apart: the difference exceeds its plus-minus (k = 2) and the least that matters: 2 points of the score, 8 of the index,
 * 0.0022 in u'v'. Photos taken alike share most of their error of the score; of red print and colour too when both are of one
 * stated kind of light.
 *
 * @param reference of the same window; null without one
 * @source JCGM 100; the least differences are our own choice
 * @rule PR1, PR2, PR4, PR5
 */
export function comparePair(a: ComparedWindow, b: ComparedWindow, reference: ComparedWindow | null): Pair {
  const rho = sharedError(a.reading, b.reading);
  const isAlike = rho > 0 && isSameLight(a, b);
  return {
    a: a.reading.name,
    b: b.reading.name,
    window: a.reading.window,
    evenness: compared(a, b, scoreOf, rho, leastScoreDifference),
    redPrint: compared(a, b, indexOf, isAlike ? rho : 0, leastIndexDifference),
    colour: compareColour(a, b, reference, isAlike),
    luminance: compareLuminance(a, b),
  };
}
