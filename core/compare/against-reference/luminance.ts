import type { LuminanceEntry } from '../../contract/readings';
import { figure, missing, type Figure } from '../../contract/figure';
import { luminanceDifference, luminanceDifferenceInPhoto } from '../luminance-difference';
import type { PhotoPair } from './photo-pair';

/** ln ratio to ratio; the error of a ratio is that of its logarithm times the ratio. */
function ratioOf({ value, plusMinus, reason }: Figure): Figure {
  if (value === null || plusMinus === null) return missing(reason ?? 'not measured');
  const ratio = Math.exp(value);
  return figure(ratio, ratio * plusMinus);
}

/**
 * Light of the glow over the reference's, by exposures or a witness patch; within one photo directly.
 *
 * @source N^2 / (t S), ISO 2720:1974; doubts: PR5, PR8
 * @rule RF3
 */
export function luminanceAgainst(pair: PhotoPair): LuminanceEntry {
  const { trial, reference } = pair;
  const entry = trial.reading.luminance;
  if (pair.isSelf) return { ...entry, ofReference: entry.glowMean.value === null ? entry.glowMean : figure(1, 0) };
  const hasWitness = trial.witness !== null && reference.witness !== null;
  if (pair.isOtherLens && !hasWitness) {
    return { ...entry, ofReference: missing('camera or focal length are not those of the reference') };
  }
  const between = pair.isOnePhoto ? luminanceDifferenceInPhoto : luminanceDifference;
  return { ...entry, ofReference: ratioOf(between(reference, trial)) };
}
