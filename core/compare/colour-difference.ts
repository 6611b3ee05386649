import { uvDistance } from '../colour/steps';
import type { LightKind } from '../contract/light';
import { figure, missing, type Figure } from '../contract/figure';
import { tieColour } from '../preparation/comparable';
import { coverageFactor } from '../reading/uncertainty';
import type { ComparedWindow } from './compared-window';
import { differenceUncertainty, sharedErrorOfLikePhotos } from './pairs';

/**
 * What is left of the camera's error of colour between two photos taken alike of one kind of light, u'v', one standard deviation.
 *
 * @source our own estimate, not measured on real cameras: good to about 0.002 (k = 2)
 */
const colourOfLikePhotos = 0.001;

/**
 * Error of a light's colour beside a filament's in the same photo, u'v', one standard deviation.
 *
 * @source the published sensitivities of 32 cameras, simulated for each kind of light (our own experiment)
 * @rule PR8
 */
const cameraOnUv: Readonly<Record<LightKind, number>> = {
  filament: 0.001,
  'warm-white': 0.006,
  'phosphor-amber': 0.0085,
  'cool-white': 0.01,
  'red+green': 0.0135,
  'red+yellow-green': 0.018,
  'narrow-amber': 0.0285,
  red: 0.0285,
  unknown: 0.0285,
};

interface Uv {
  readonly uPrime: number;
  readonly vPrime: number;
}

function uvOf({ reading }: ComparedWindow): Uv {
  return { uPrime: reading.colour.uPrime.value ?? NaN, vPrime: reading.colour.vPrime.value ?? NaN };
}

/** Colours that are the same may differ either way. */
export const anyWay: Uv = { uPrime: 1, vPrime: 1 };

/** The way from one colour to another, of length 1; null when there is none. */
export function directionTo(to: Uv, from: Uv): Uv | null {
  const [du, dv] = [to.uPrime - from.uPrime, to.vPrime - from.vPrime];
  const length = Math.hypot(du, dv);
  return length > 0 ? { uPrime: du / length, vPrime: dv / length } : null;
}

/**
 * What tone curves leave in doubt of two colours' difference along a direction in u'v', k = 1. A curve that bends moves a bright
 * glow otherwise than a dim one, so that even photos taken alike share only a part of it.
 *
 * @param rho    share of the error that both have, 0..1
 * @param along  of length 1, or `anyWay`
 * @source JCGM 100 5.2.2; the shifts: UN4
 * @rule PR4, PR8, RF4
 */
export function curveDoubt(a: ComparedWindow, b: ComparedWindow, rho: number, along: Uv): number {
  const [ofA, ofB] = [a.facts.curveShift, b.facts.curveShift];
  if (!ofA || !ofB) return 0;
  const { uPrime, vPrime } = along;
  return Math.hypot(
    uPrime * differenceUncertainty(ofA.u, ofB.u, rho),
    vPrime * differenceUncertainty(ofA.v, ofB.v, rho),
  );
}

const uncertaintyOf = ({ reading }: ComparedWindow): number =>
  (reading.colour.toReferenceUv.plusMinus ?? NaN) / coverageFactor;

/**
 * Standard uncertainty (k = 1) of how much farther from the reference b's colour lies than a's.
 *
 * Photos that share the camera's error e are both moved by it: their distances change by e (n_b - n_a), with n the directions in
 * which they lie from the reference. On one side of it the error drops out, on opposite sides it counts twice. What their tone
 * curves do otherwise to the one than to the other stays.
 *
 * @param isAlike photos taken alike, of one stated kind of light
 * @source JCGM 100 5.2.2
 * @rule PR4
 */
export function distanceUncertainty(
  a: ComparedWindow,
  b: ComparedWindow,
  reference: ComparedWindow,
  isAlike: boolean,
): number {
  const [ofA, ofB] = [uncertaintyOf(a), uncertaintyOf(b)];
  const [toA, toB] = [a, b].map((window) => directionTo(uvOf(window), uvOf(reference)));
  if (!isAlike || !toA || !toB) return Math.hypot(ofA, ofB);
  const turned = Math.hypot(toB.uPrime - toA.uPrime, toB.vPrime - toA.vPrime);
  const curves = Math.max(...[toA, toB].map((along) => curveDoubt(a, b, sharedErrorOfLikePhotos, along)));
  return Math.hypot(colourOfLikePhotos, turned * Math.max(ofA, ofB), curves);
}

function noColour(a: ComparedWindow, b: ComparedWindow): string | null {
  const without = [a, b].find(({ reading }) => reading.colour.uPrime.value === null);
  return without ? `${without.reading.window}: ${without.reading.colour.uPrime.reason ?? 'not measured'}` : null;
}

/** Of the distance between two lights of stated kinds, u'v', one standard deviation. @rule PR8, RF4 */
export function spectralDoubt(a: LightKind, b: LightKind): number {
  return a === b && a !== 'unknown' ? colourOfLikePhotos : Math.hypot(cameraOnUv[a], cameraOnUv[b]);
}

/**
 * Distance in u'v' of the colours of two windows, taken alike.
 *
 * @param rho  share of the tone curves' error that both have; in one photo that of photos taken alike
 * @source CIE 015:2018; JCGM 100
 * @rule PR8
 */
export function uvBetween(a: ComparedWindow, b: ComparedWindow, rho = sharedErrorOfLikePhotos): Figure {
  const reason = noColour(a, b);
  if (reason !== null) return missing(reason);
  const [from, to] = [uvOf(a), uvOf(b)];
  const uncertainty = Math.hypot(
    spectralDoubt(a.facts.basis.light, b.facts.basis.light),
    curveDoubt(a, b, rho, directionTo(to, from) ?? anyWay),
  );
  return figure(uvDistance(from, to), coverageFactor * uncertainty);
}

/**
 * Distance in u'v' of the colours of two windows in two photos, whose white balance must be the same.
 *
 * @source CIE 015:2018; JCGM 100
 * @rule PR8
 */
export function uvBetweenPhotos(a: ComparedWindow, b: ComparedWindow, rho: number): Figure {
  const photoOf = ({ facts, witness }: ComparedWindow) => ({ camera: facts.camera, witness });
  const tie = tieColour(photoOf(a), photoOf(b));
  return tie.by === 'settings' ? uvBetween(a, b, rho) : missing(tie.by === null ? tie.reason : 'white balance differs');
}
