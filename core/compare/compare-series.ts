import type { Comparison, Pair } from '../contract/comparison';
import { findMatches, type ShownWindow } from './find-matches';
import type { ComparedReading } from './compared-window';
import { pairsByName, rankTrials, type FindPair, type UnreadTrial } from './ranking';
import { comparePair } from './reading-pairs';

/** The reference of a window: itself under the filament lamp, else the only window that the reference shows. */
function referenceOf(window: string, shown: readonly ShownWindow[]): ShownWindow | null {
  const references = shown.filter(({ role }) => role === 'reference');
  const only = references.length === 1 ? references[0] : null;
  return references.find(({ reading }) => reading.window === window) ?? only;
}

/**
 * Compares everything that a series has measured: every two trials of each window, their order, and its windows with each other.
 *
 * @param windows names, in the order of the series
 * @param shown   what was measured, trials in the order of the series
 * @param unread  trials whose photo gave no reading
 * @rule PR1, PR3, PR8
 */
export function compareSeries(
  windows: readonly string[],
  shown: readonly ShownWindow[],
  unread: readonly UnreadTrial[],
): Comparison {
  const trials = shown.filter(({ role }) => role === 'trial');
  const pairs = windows.flatMap((window): Pair[] => {
    const own = trials.filter(({ reading }) => reading.window === window);
    const reference = referenceOf(window, shown);
    return own.flatMap((a, i) => own.slice(i + 1).map((b) => comparePair(a, b, reference)));
  });
  const readings = trials.map(({ reading }) => reading);
  return {
    ranking: rankTrials(windows, readings, pairsByName(pairs), unread),
    pairs,
    match: findMatches(shown, windows),
  };
}

/**
 * The trials of one window in order, and the pairs of one of them: what `compareSeries` says, without comparing every two. A trial
 * is compared with the best of its group only, so that the time grows with the number of trials and not with its square.
 *
 * @param shown   of one window, the reference perhaps among them
 * @param inView  the name of a trial; null: no pairs
 * @rule PR1, PR3
 */
export function compareInView(window: string, shown: readonly ShownWindow[], inView: string | null): Comparison {
  const trials = shown.filter(({ role }) => role === 'trial');
  const reference = referenceOf(window, shown);
  const byName = new Map(trials.map((trial) => [trial.reading.name, trial]));
  const made = new Map<string, Pair>();
  const place = (name: string): number => trials.findIndex(({ reading }) => reading.name === name);
  const find = (one: string, other: string): Pair | undefined => {
    const [first, second] = place(one) < place(other) ? [one, other] : [other, one];
    const [a, b] = [byName.get(first), byName.get(second)];
    if (!a || !b || a === b) return undefined;
    const word = JSON.stringify([first, second]);
    const pair = made.get(word) ?? comparePair(a, b, reference);
    made.set(word, pair);
    return pair;
  };
  const findPair: FindPair = (one: ComparedReading, other: ComparedReading) => find(one.name, other.name);
  const readings = trials.map(({ reading }) => reading);
  const pairs =
    inView === null ? [] : readings.map(({ name }) => find(name, inView)).filter((pair) => pair !== undefined);
  return { ranking: rankTrials([window], readings, findPair), pairs, match: [] };
}
