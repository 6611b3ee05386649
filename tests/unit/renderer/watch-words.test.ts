import { describe, expect, it } from 'vitest';
import { figure, missing } from '../../../core/contract/figure';
import type { Pair } from '../../../core/contract/comparison';
import type { WatchShown } from '../../../core/contract/watch';
import { bestOf, comparedVerdict, refusalOf, type Rival } from '../../../renderer/state/watch-verdict';
import { watchCounts, watchLine } from '../../../renderer/views/watch/watch-words';
import { madeUpReading } from '../cli/made-up';

const rival = (name: string, score: number | null): Rival => {
  const reading = madeUpReading({ name });
  const of = score === null ? missing('too dark') : figure(score, 3);
  return { id: `id-${name}`, name, reading: { ...reading, evenness: { ...reading.evenness, score: of } } };
};
const compared = (difference: number, plusMinus: number, toldApart: boolean) => ({
  difference: figure(difference, plusMinus),
  toldApart,
});
/** Of the new photo, less the best so far. */
const pair = (evenness: Pair['evenness']): Pair => ({
  a: 'id-best',
  b: 'id-new',
  window: 'window',
  evenness,
  redPrint: compared(12, 8, true),
  colour: { difference: missing('id-best: no reference'), toldApart: false },
  luminance: compared(0.1, 0.2, false),
});
const shown: WatchShown = {
  folder: 'Camera',
  gone: null,
  before: 3,
  laid: 2,
  repeated: 0,
  others: 0,
  arriving: [],
  notTaken: [],
};
const lineOf = (evenness: Pair['evenness']) =>
  watchLine(comparedVerdict(rival('new', 70), rival('best', 64), pair(evenness)), shown, {
    own: '70 ± 3',
    best: '64 ± 3',
  });

describe('the line of the watched folder', () => {
  it('[SC30] is what compare tells apart of evenness, and nothing else', () => {
    expect(lineOf(compared(6, 4, true))).toMatchObject({ mark: 'up', word: 'Better', by: '+6 ± 4' });
    expect(lineOf(compared(-6, 4, true))).toMatchObject({ mark: 'down', word: 'Worse', by: '−6 ± 4' });
    expect(lineOf(compared(6, 7, false))).toMatchObject({ mark: 'alike', word: 'Cannot tell', by: '+6 ± 7' });
    const none = lineOf({ difference: missing('id-new: too dark'), toldApart: false });
    expect(none).toMatchObject({ mark: 'alike', word: 'Cannot tell', by: '' });
  });

  it('[SC30] has red print and colour below it, and says which figure is missing', () => {
    expect(lineOf(compared(6, 4, true)).second).toBe(
      'new: evenness 70 ± 3, the best so far 64 ± 3 (best). Red print redder, +12 ± 8. Colour distance: no figure.',
    );
  });

  it('[SC30] takes for the best so far the highest score; one without has no say', () => {
    expect(bestOf([rival('a', 60), rival('b', 71), rival('c', null), rival('d', 64)])?.name).toBe('b');
    expect([bestOf([]), bestOf([rival('c', null)])]).toEqual([null, null]);
    expect(refusalOf(rival('c', null).reading)).toMatchObject({ reason: 'too dark' });
    expect(refusalOf(rival('a', 60).reading)).toBeNull();
  });

  it('[SC30] says that the folder is away whatever the last photo was, and counts what came', () => {
    const gone = watchLine(null, { ...shown, gone: 'it is not there' }, { own: '', best: '' });
    expect(gone).toMatchObject({
      word: 'Folder gone',
      second: expect.stringMatching(/Camera: it is not there/) as string,
    });
    expect(watchCounts(shown)).toBe('2 photos');
    expect(watchCounts({ ...shown, laid: 1, repeated: 2, others: 1, arriving: ['a.jpg'] })).toBe(
      '1 photo, 1 arriving, 2 came again, 1 other file left alone',
    );
  });
});
