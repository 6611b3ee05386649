import { medianOf } from '../../base/stats';
import type { Curve } from '../code-light';
import { hatWeight } from './hat-weight';
import { withoutFrame, type ChannelSamples } from './samples';

/** Merged light of one place, or NaN where no photo has a code to be trusted. */
function mergedAt({ codes, relExposures }: ChannelSamples, place: number, curve: Curve): number {
  let [sum, weights] = [0, 0];
  codes.forEach((frame, j) => {
    const weight = hatWeight(255 * frame[place]);
    sum += (weight * curve(frame[place])) / relExposures[j];
    weights += weight;
  });
  return weights > 0 ? sum / weights : NaN;
}

/**
 * How well a photo of the series is told by the others: |ln of its light - ln of what the others merge to|, for every photo in turn
 * and every place that both have a trusted code of.
 *
 * @param curveOf the curve of the photos that were not left out; null: no curve, that photo is passed over
 * @returns one number a place and photo, ln units
 * @source our own choice: a fit's own residual says little, as a polynomial follows its data
 * @rule BR5
 */
export function leftOutErrors(samples: ChannelSamples, curveOf: (others: ChannelSamples) => Curve | null): number[] {
  const errors: number[] = [];
  samples.codes.forEach((frame, left) => {
    const others = withoutFrame(samples, left);
    const curve = curveOf(others);
    if (!curve) return;
    frame.forEach((code, place) => {
      if (hatWeight(255 * code) === 0) return;
      const told = Math.log(mergedAt(others, place, curve));
      const seen = Math.log(curve(code) / samples.relExposures[left]);
      // A light of 0 has no logarithm; a curve that gives it there is as wrong as can be told.
      if (!Number.isNaN(told)) errors.push(Number.isFinite(seen - told) ? Math.abs(seen - told) : Infinity);
    });
  });
  return errors;
}

/** Median of `leftOutErrors`; null without any. @rule BR5 */
export function medianError(errors: readonly number[]): number | null {
  return errors.length === 0 ? null : medianOf(errors);
}
