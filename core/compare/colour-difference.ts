import { uvDistance } from '../colour/steps';
import type { LightKind } from '../contract/light';
import { figure, missing, type Figure } from '../contract/figure';
import { tieColour } from '../preparation/comparable';
import { coverageFactor } from '../reading/uncertainty';
import type { ComparedWindow } from './compared-window';

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

/** The way from the reference's colour, of length 1; null when there is none. */
function directionOf(window: ComparedWindow, reference: ComparedWindow): Uv | null {
  const [to, from] = [uvOf(window), uvOf(reference)];
  const [du, dv] = [to.uPrime - from.uPrime, to.vPrime - from.vPrime];
  const length = Math.hypot(du, dv);
  return length > 0 ? { uPrime: du / length, vPrime: dv / length } : null;
}

const uncertaintyOf = ({ reading }: ComparedWindow): number =>
  (reading.colour.toReferenceUv.plusMinus ?? NaN) / coverageFactor;

/**
 * Standard uncertainty (k = 1) of how much farther from the reference b's colour lies than a's.
 *
 * Photos that share the camera's error e are both moved by it: their distances change by e (n_b - n_a), with n the directions in
 * which they lie from the reference. On one side of it the error drops out, on opposite sides it counts twice.
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
  const [toA, toB] = [directionOf(a, reference), directionOf(b, reference)];
  if (!isAlike || !toA || !toB) return Math.hypot(ofA, ofB);
  const turned = Math.hypot(toB.uPrime - toA.uPrime, toB.vPrime - toA.vPrime);
  return Math.hypot(colourOfLikePhotos, turned * Math.max(ofA, ofB));
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
 * Distance in u'v' of the colours of two windows in one photo.
 *
 * @source CIE 015:2018; JCGM 100
 * @rule PR8
 */
export function uvBetween(a: ComparedWindow, b: ComparedWindow): Figure {
  const reason = noColour(a, b);
  if (reason !== null) return missing(reason);
  const uncertainty = spectralDoubt(a.facts.basis.light, b.facts.basis.light);
  return figure(uvDistance(uvOf(a), uvOf(b)), coverageFactor * uncertainty);
}

/**
 * Distance in u'v' of the colours of two windows in two photos, whose white balance must be the same.
 *
 * @source CIE 015:2018; JCGM 100
 * @rule PR8
 */
export function uvBetweenPhotos(a: ComparedWindow, b: ComparedWindow): Figure {
  const photoOf = ({ facts, witness }: ComparedWindow) => ({ camera: facts.camera, witness });
  const tie = tieColour(photoOf(a), photoOf(b));
  return tie.by === 'settings' ? uvBetween(a, b) : missing(tie.by === null ? tie.reason : 'white balance differs');
}
