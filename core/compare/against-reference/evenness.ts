import type { EvennessEntry } from '../../contract/readings';
import { figure, missing, type Figure } from '../../contract/figure';
import { coverageFactor } from '../../reading/uncertainty';
import { evennessToReferenceWords } from '../../reading/words';
import { leastScoreDifference, tellApart, type Measured } from '../pairs';
import type { PhotoPair } from './photo-pair';

function measuredOf({ value, plusMinus }: Figure): Measured | null {
  return value === null || plusMinus === null ? null : { value, uncertainty: plusMinus / coverageFactor };
}

/**
 * The score less the reference's, since factory lamps are not perfect either, and the words for it.
 *
 * Photos taken alike share 0.8 of their error. A difference that is not told apart says so.
 *
 * @source JCGM 100; the words our own choice
 * @rule RF1
 */
export function evennessAgainst({ trial, reference, rho, isSelf }: PhotoPair): EvennessEntry {
  const own = trial.reading.evenness;
  const base = reference.reading.evenness;
  const [score, baseScore] = [measuredOf(own.score), measuredOf(base.score)];
  if (!score) return { ...own, toReference: missing(own.score.reason ?? 'not measured') };
  if (!baseScore) return { ...own, toReference: missing(`the reference: ${base.score.reason ?? 'not measured'}`) };
  if (isSelf) return { ...own, toReference: figure(0, 0) };
  const { difference, uncertainty, toldApart } = tellApart(baseScore, score, rho, leastScoreDifference);
  const words = evennessToReferenceWords(difference);
  return {
    ...own,
    toReference: figure(difference, coverageFactor * uncertainty),
    words: toldApart ? words : `${words} (within the plus-minus)`,
  };
}
