import { solveSymmetric } from '../../base/solve-symmetric';
import type { ChannelSamples } from './samples';

/** Light of a code as a polynomial: f(z) = c0 + c1 z + c2 z^2 ..., z and f 0..1, f(1) = 1. */
export type ResponsePolynomial = readonly number[];

/** Codes of 0..255 that a pair's darker and brighter photo must lie above and below. @source our own choice */
const darkest = 5 / 255;
const brightest = 250 / 255;
/** Noise of a sample, as a share of full scale: what the photos' differences are weighed by. @source our own choice */
const codeNoise = 0.5 / 255;
/** Weights and curve settle within this many rounds. */
const rounds = 4;
/** Fewer pairs of codes cannot hold a cubic against noise. @source our own choice */
export const leastPairs = 150;

/** f(z). */
export function lightOfCode(response: ResponsePolynomial, code: number): number {
  return response.reduceRight((sum, factor) => sum * code + factor, 0);
}

function slopeAt(response: ResponsePolynomial, code: number): number {
  return response.reduceRight((sum, factor, k) => (k === 0 ? sum : sum * code + k * factor), 0);
}

/** Codes of the same place in a photo and in the next brighter one, and the ratio of their exposures. */
interface Pairs {
  readonly darker: number[];
  readonly brighter: number[];
  readonly ratio: number[];
}

function pairsOf({ codes, relExposures }: ChannelSamples): Pairs {
  const pairs: Pairs = { darker: [], brighter: [], ratio: [] };
  for (let frame = 0; frame + 1 < codes.length; frame++) {
    const ratio = relExposures[frame] / relExposures[frame + 1];
    codes[frame].forEach((darker, i) => {
      const brighter = codes[frame + 1][i];
      if (!(darker > darkest && brighter < brightest)) return;
      pairs.darker.push(darker);
      pairs.brighter.push(brighter);
      pairs.ratio.push(ratio);
    });
  }
  return pairs;
}

/** Least squares of f(darker) - ratio f(brighter), divided by what the codes' noise makes of it under the curve so far. */
function fitOnce({ darker, brighter, ratio }: Pairs, degree: number, before: ResponsePolynomial): number[] | null {
  const normal = new Float64Array(degree * degree);
  const right = new Float64Array(degree);
  const terms = new Float64Array(degree + 1);
  for (let i = 0; i < ratio.length; i++) {
    let [low, high] = [1, 1];
    for (let k = 0; k <= degree; k++) {
      terms[k] = low - ratio[i] * high;
      low *= darker[i];
      high *= brighter[i];
    }
    const noise = Math.hypot(slopeAt(before, darker[i]), ratio[i] * slopeAt(before, brighter[i]));
    const weight = 1 / Math.max(codeNoise * noise, 1e-5) ** 2;
    // f(1) = 1: the last factor is 1 less all others.
    const last = terms[degree];
    for (let j = 0; j < degree; j++) {
      right[j] -= weight * last * (terms[j] - last);
      for (let k = 0; k <= j; k++) normal[j * degree + k] += weight * (terms[j] - last) * (terms[k] - last);
    }
  }
  const factors = solveSymmetric(normal, right);
  if (!factors) return null;
  return [...factors, 1 - factors.reduce((sum, factor) => sum + factor, 0)];
}

/**
 * The tone curve of a channel from photos of known exposure ratios: least squares of f(z_j) - R_j f(z_j+1) over the pairs of
 * neighbouring exposures, f a polynomial with f(1) = 1.
 *
 * Pairs whose darker code is at most 5 or whose brighter code is 250 or more of 255 are left out. Each difference is weighed by
 * what the noise of codes makes of it, in four rounds: plain squares leave the dark end to the noise of the bright one.
 *
 * @param degree 3, or 4
 * @returns null when there are too few pairs, or they do not determine a curve
 * @source Mitsunaga & Nayar, Radiometric self calibration, CVPR 1999 (from memory), exposure ratios known; weights: our own
 *   choice, on S curves they halve the error of light that the camera did not tell
 * @rule BR2
 */
export function fitPolynomial(samples: ChannelSamples, degree: 3 | 4): ResponsePolynomial | null {
  const pairs = pairsOf(samples);
  if (pairs.ratio.length < leastPairs) return null;
  // The square is near enough to any camera's curve to begin with.
  let response: ResponsePolynomial = [0, 0, 1];
  for (let round = 0; round < rounds; round++) {
    const next = fitOnce(pairs, degree, response);
    if (!next) return null;
    response = next;
  }
  return response;
}

/**
 * Whether more code is more light, and light is above 0, at every code that merging trusts (4..251 of 255).
 *
 * @rule BR2
 */
export function isMonotone(response: ResponsePolynomial): boolean {
  let before = 0;
  for (let code = 4; code <= 251; code++) {
    const light = lightOfCode(response, code / 255);
    if (!(light > before)) return false;
    before = light;
  }
  return true;
}
