import { medianOf } from '../../base/stats';
import { solveSymmetric } from '../../base/solve-symmetric';
import { lightOfCode, type ResponsePolynomial } from './polynomial';
import type { ChannelSamples } from './samples';

const codeCount = 256;
/** Of g's bend. @source Debevec & Malik 1997: a free choice; this one from bent and noisy rendered photos */
const smoothness = 30;
/** Places of which the curve is made. @source our own choice */
const places = 120;
/** Codes between which two curves are compared: beyond, the weights of this one vanish. @source our own choice */
const comparedCodes = [20, 235] as const;

const hat = (code: number): number => Math.min(code, 255 - code) + 1;

/**
 * ln of the light of every code 0..255, up to a constant: minimises sum w(z) (g(z) - ln E_i - ln t_j)^2 + lambda sum w g''^2.
 *
 * The light E_i of a place follows from g, so that only g is solved for.
 *
 * @returns g(128) = 0; null when the photos do not determine it
 * @source Debevec & Malik, Recovering high dynamic range radiance maps, SIGGRAPH 1997 (from memory)
 * @rule BR3
 */
export function fitLogResponse({ codes, relExposures }: ChannelSamples): Float64Array | null {
  const matrix = new Float64Array(codeCount * codeCount);
  const right = new Float64Array(codeCount);
  const count = Math.min(places, codes[0].length);
  for (let n = 0; n < count; n++) {
    const i = Math.floor((n * codes[0].length) / count);
    const at = codes.map((frame) => Math.round(255 * frame[i]));
    const weights = at.map(hat);
    const total = weights.reduce((sum, weight) => sum + weight, 0);
    const lnTimes = relExposures.map((relExposure) => Math.log(relExposure));
    const meanLnTime = weights.reduce((sum, weight, j) => sum + weight * lnTimes[j], 0) / total;
    at.forEach((code, j) => {
      matrix[code * codeCount + code] += weights[j];
      right[code] += weights[j] * (lnTimes[j] - meanLnTime);
      at.forEach((other, k) => (matrix[code * codeCount + other] -= (weights[j] * weights[k]) / total));
    });
  }
  for (let code = 1; code < codeCount - 1; code++) {
    const weight = smoothness * hat(code);
    for (const [a, bendA] of [
      [code - 1, 1],
      [code, -2],
      [code + 1, 1],
    ] as const) {
      for (const [b, bendB] of [
        [code - 1, 1],
        [code, -2],
        [code + 1, 1],
      ] as const) {
        matrix[a * codeCount + b] += weight * bendA * bendB;
      }
    }
  }
  // Anything holds the constant; the sums above do not know it.
  matrix[128 * codeCount + 128] += 1e4;
  const g = solveSymmetric(matrix, right);
  return g && g.map((value) => value - g[128]);
}

/**
 * How far a second way of recovering the curve lies from the first: median over codes of |ln f - g|, their constants set alike.
 *
 * @returns 0 or more, ln units (0.05 is 5 % of light); null when the second way gives nothing
 * @source our own choice
 * @rule BR3
 */
export function apartFromLogResponse(response: ResponsePolynomial, samples: ChannelSamples): number | null {
  const g = fitLogResponse(samples);
  if (!g) return null;
  const [first, last] = comparedCodes;
  const apart = Array.from({ length: last - first + 1 }, (_, i) => {
    const code = first + i;
    return Math.log(Math.max(lightOfCode(response, code / 255), 1e-6)) - g[code];
  });
  const constant = medianOf(apart);
  return medianOf(apart.map((value) => Math.abs(value - constant)));
}
