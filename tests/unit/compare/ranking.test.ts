import { describe, expect, it } from 'vitest';
import { pairsByName, rankTrials } from '../../../core/compare/ranking';
import { rankedGroups } from '../../../core/compare/ranked-groups';
import { leastIndexDifference, leastScoreDifference, leastUvDifference, tellApart } from '../../../core/compare/pairs';
import type { ComparedFigure, Pair } from '../../../core/contract/comparison';
import { figure, missing, type Figure } from '../../../core/contract/figure';
import type { Reading } from '../../../core/contract/readings';
import { madeUpReading } from '../cli/made-up';

describe('rankedGroups', () => {
  const trials = (...values: number[]) => values.map((value) => ({ name: String(value), value }));
  const ranked = (values: number[], gap: number) =>
    rankedGroups(
      trials(...values),
      (a, b) => b.value - a.value,
      (best, other) => best.value - other.value > gap,
    );

  it('[PR3] a group holds what is not told apart from its best, not from its neighbour', () => {
    // 70 is within the gap of 74, but not of the group's best, 78.
    expect(ranked([70, 78, 41, 74], 5)).toEqual([['78', '74'], ['70'], ['41']]);
  });

  it('[PR3] none, one, and all alike', () => {
    expect(ranked([], 5)).toEqual([]);
    expect(ranked([63], 5)).toEqual([['63']]);
    expect(ranked([61, 63, 62], 5)).toEqual([['63', '62', '61']]);
  });
});

/** A trial with its three figures; null: none. */
function trial(name: string, score: number | null, index: number | null, distance: number | null): Reading {
  const plain = madeUpReading({ name });
  const of = (value: number | null, plusMinus: number): Figure =>
    value === null ? missing(`${name} has none`) : figure(value, plusMinus);
  return {
    ...plain,
    evenness: { ...plain.evenness, score: of(score, 2.2) },
    redPrint: { ...plain.redPrint, index: of(index, 7) },
    colour: { ...plain.colour, toReferenceUv: of(distance, 0.002) },
  };
}

function compared(a: Figure, b: Figure, least: number): ComparedFigure {
  if (a.value === null || a.plusMinus === null || b.value === null || b.plusMinus === null)
    return { difference: missing('one has none'), toldApart: false };
  const [first, second] = [a, b].map((one) => ({ value: one.value ?? NaN, uncertainty: (one.plusMinus ?? NaN) / 2 }));
  const { difference, uncertainty, toldApart } = tellApart(first, second, 0, least);
  return { difference: figure(difference, 2 * uncertainty), toldApart };
}

function pairsOf(readings: readonly Reading[]): Pair[] {
  return readings.flatMap((a, i) =>
    readings.slice(i + 1).map((b) => ({
      a: a.name,
      b: b.name,
      window: a.window,
      evenness: compared(a.evenness.score, b.evenness.score, leastScoreDifference),
      redPrint: compared(a.redPrint.index, b.redPrint.index, leastIndexDifference),
      colour: compared(a.colour.toReferenceUv, b.colour.toReferenceUv, leastUvDifference),
      luminance: { difference: missing('not asked'), toldApart: false },
    })),
  );
}

describe('rankTrials', () => {
  it('[PR3] the most even, the red nearest to the reference, the nearest colour lead', () => {
    const trials = [trial('tape', 55, 160, 0.031), trial('bare', 31, 84, 0.012), trial('shade', 88, 21, 0.0195)];
    const { evenness, redPrint, colour } = rankTrials(['scale'], trials, pairsByName(pairsOf(trials)));
    expect(evenness).toEqual([['shade'], ['tape'], ['bare']]);
    expect(redPrint).toEqual([['bare'], ['tape'], ['shade']]);
    expect(colour).toEqual([['bare'], ['shade'], ['tape']]);
  });

  it('[PR3] as far above the reference as below is no better, though told apart', () => {
    const trials = [trial('redder', 70, 112, 0.01), trial('duller', 71, 89, 0.01)];
    const pairs = pairsOf(trials);
    expect(pairs[0].redPrint.toldApart).toBe(true);
    expect(rankTrials(['scale'], trials, pairsByName(pairs)).redPrint).toEqual([['duller', 'redder']]);
  });

  it('[PR3] a trial without the figure stands in no group, with its reason; so does one that could not be read', () => {
    const trials = [trial('dark', null, 76, 0.013), trial('bare', 31, null, 0.014)];
    const unread = [{ name: 'lost', window: null, reason: 'lost.jpg does not exist' }];
    const { evenness, redPrint, notRanked } = rankTrials(['scale'], trials, pairsByName(pairsOf(trials)), unread);
    expect([evenness, redPrint]).toEqual([[['bare']], [['dark']]]);
    const lost = { name: 'lost', reason: 'lost.jpg does not exist' };
    expect(notRanked).toEqual({
      evenness: [{ name: 'dark', reason: 'dark has none' }, lost],
      redPrint: [{ name: 'bare', reason: 'bare has none' }, lost],
      colour: [lost],
    });
  });

  it('[PR3] one whose other photo could not be read is ranked by the window that was read, and by it alone', () => {
    const unread = [{ name: 'bare', window: null, reason: 'meter.jpg does not exist' }];
    const { windows } = rankTrials(['scale', 'meter'], [trial('bare', 31, 80, 0.014)], () => undefined, unread);
    const bare = { name: 'bare', reason: 'meter.jpg does not exist' };
    expect([windows.scale.evenness, windows.scale.notRanked.evenness]).toEqual([[['bare']], []]);
    expect([windows.meter.evenness, windows.meter.notRanked.evenness]).toEqual([[], [bare]]);
  });

  it('[PR3] each window has its own order; the first one stands on top', () => {
    const meter = (name: string, score: number) => ({ ...trial(name, score, 90, 0.004), window: 'meter' });
    const scales = [trial('bare', 42, 90, 0.004), trial('tape', 63, 90, 0.004)];
    const meters = [meter('bare', 81), meter('tape', 70)];
    const ranking = rankTrials(
      ['scale', 'meter'],
      [...scales, ...meters],
      pairsByName([...pairsOf(scales), ...pairsOf(meters)]),
    );
    expect(ranking.evenness).toEqual([['tape'], ['bare']]);
    expect(ranking.windows.scale.evenness).toEqual(ranking.evenness);
    expect(ranking.windows.meter.evenness).toEqual([['bare'], ['tape']]);
  });
});
