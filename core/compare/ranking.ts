import type { ComparedFigure, NotRanked, Pair, RankedFigure, Ranking, WindowRanking } from '../contract/comparison';
import type { Figure } from '../contract/figure';
import type { ComparedReading } from './compared-window';
import { leastIndexDifference, leastScoreDifference, leastUvDifference } from './pairs';
import { rankedGroups } from './ranked-groups';

/** A trial whose photo gave no reading of a window. */
export interface UnreadTrial extends NotRanked {
  /** null: of none of the photo's windows. */
  readonly window: string | null;
}

const figureOf: Readonly<Record<RankedFigure, (reading: ComparedReading) => Figure>> = {
  evenness: ({ evenness }) => evenness.score,
  redPrint: ({ redPrint }) => redPrint.index,
  colour: ({ colour }) => colour.toReferenceUv,
};

/** How far from the best that can be: 100 points, the reference's own red, the reference's own colour. */
const lossOf: Readonly<Record<RankedFigure, (value: number) => number>> = {
  evenness: (score) => 100 - score,
  redPrint: (index) => Math.abs(index - 100),
  colour: (distance) => distance,
};

const leastOf: Readonly<Record<RankedFigure, number>> = {
  evenness: leastScoreDifference,
  redPrint: leastIndexDifference,
  colour: leastUvDifference,
};

/** Two trials of one window compared, in either order. */
export type FindPair = (one: ComparedReading, other: ComparedReading) => Pair | undefined;

/** Finds the pairs of a list. */
export function pairsByName(pairs: readonly Pair[]): FindPair {
  const word = (window: string, a: string, b: string): string => JSON.stringify([window, a, b]);
  const found = new Map(pairs.map((pair) => [word(pair.window, pair.a, pair.b), pair]));
  return ({ window, name }, other) =>
    found.get(word(window, name, other.name)) ?? found.get(word(window, other.name, name));
}

/** Told apart, and not only as two that miss the best on either side: 92 and 108 per cent are equally good. */
function isBetter({ difference, toldApart }: ComparedFigure, lossGap: number, least: number): boolean {
  return toldApart && difference.plusMinus !== null && lossGap > difference.plusMinus && lossGap >= least;
}

function rankingOf(readings: readonly ComparedReading[], find: FindPair, unread: readonly NotRanked[]): WindowRanking {
  const groups = (ranked: RankedFigure) => {
    const loss = (reading: ComparedReading): number => lossOf[ranked](figureOf[ranked](reading).value ?? NaN);
    return rankedGroups(
      readings.filter((reading) => figureOf[ranked](reading).value !== null),
      (a, b) => loss(a) - loss(b),
      (best, other) => {
        const pair = find(best, other);
        return pair !== undefined && isBetter(pair[ranked], loss(other) - loss(best), leastOf[ranked]);
      },
    );
  };
  const notRanked = (ranked: RankedFigure): NotRanked[] => [
    ...readings.flatMap((reading) => {
      const { value, reason } = figureOf[ranked](reading);
      return value === null ? [{ name: reading.name, reason: reason ?? 'not measured' }] : [];
    }),
    ...unread,
  ];
  return {
    evenness: groups('evenness'),
    redPrint: groups('redPrint'),
    colour: groups('colour'),
    notRanked: {
      evenness: notRanked('evenness'),
      redPrint: notRanked('redPrint'),
      colour: notRanked('colour'),
    },
  };
}

/**
 * The trials of each window in order, those that cannot be told apart together. The reference is not ranked.
 *
 * Red print: nearest to the reference's own 100 first, so that redder than the filament is no gain.
 *
 * @param windows  names, in the order of the series; the first one's ranking also stands on top
 * @param readings of the trials
 * @param find     asked for a trial and the best of its group only
 * @source our own choice
 * @rule PR3
 */
export function rankTrials(
  windows: readonly string[],
  readings: readonly ComparedReading[],
  find: FindPair,
  unread: readonly UnreadTrial[] = [],
): Ranking {
  const ofWindow = (name: string): WindowRanking => {
    const own = readings.filter((reading) => reading.window === name);
    // Of several photos of a trial, one that cannot be read leaves the windows of the others read.
    const isUnread = (one: UnreadTrial): boolean =>
      one.window === name || (one.window === null && !own.some((reading) => reading.name === one.name));
    const none = unread.filter(isUnread).map(({ name: trial, reason }) => ({ name: trial, reason }));
    return rankingOf(own, find, none);
  };
  const [first] = windows;
  return { ...ofWindow(first), windows: Object.fromEntries(windows.map((name) => [name, ofWindow(name)])) };
}
