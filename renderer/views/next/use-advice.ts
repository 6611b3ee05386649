import { useEffect, useState } from 'preact/hooks';
import type { MappedWindow } from '../../../core/contract/measure';
import type { ErrorEntry } from '../../../core/contract/readings';
import type { AdvisedWindow, AdviceQuestion, AdviceQuestions } from '../../advice-messages';
import { useBook } from '../book-context';

/** What the worker is told of a reading. */
export function advisedWindow({ reading, maps }: MappedWindow): AdvisedWindow {
  const { glowLuminance, widthMm, heightMm, exposureNormalised } = maps;
  return {
    name: reading.name,
    score: reading.evenness.score,
    spots: reading.spots,
    isSizeKnown: reading.outline.sizeKnown,
    glowLuminance,
    widthMm,
    heightMm,
    isExposureNormalised: exposureNormalised,
  };
}

/** An answer of the worker as a screen shows it; `isBehind`: a later question is under way. */
export interface Answered<Name extends AdviceQuestion> {
  readonly answer: AdviceQuestions[Name]['answers'] | null;
  readonly refusal: ErrorEntry | null;
  readonly isBehind: boolean;
}

/**
 * Asks the advice worker whenever the question changes; the last answer stays until the next has come.
 *
 * @param asks  null: nothing is asked
 * @param about what the question is about beside `asks`: another one forgets the answer
 */
export function useAdvice<Name extends AdviceQuestion>(
  name: Name,
  asks: AdviceQuestions[Name]['asks'] | null,
  about: unknown,
): Answered<Name> {
  const { advice } = useBook();
  const [said, setSaid] = useState<Answered<Name> & { readonly about: unknown }>();
  const key = name === 'window' ? null : JSON.stringify(asks);
  useEffect(() => {
    if (asks === null) {
      setSaid(undefined);
      return undefined;
    }
    let isWanted = true;
    setSaid((before) => before && { ...before, isBehind: true });
    void advice.ask(name, asks).then((told) => {
      if (!isWanted || told === null) return;
      const answer = 'answer' in told ? told.answer : null;
      setSaid({ answer, refusal: 'refusal' in told ? told.refusal : null, isBehind: false, about });
    });
    return () => {
      isWanted = false;
    };
  }, [advice, about, key ?? asks]);
  return said?.about === about && said !== undefined ? said : { answer: null, refusal: null, isBehind: asks !== null };
}
