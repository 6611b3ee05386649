import type { Comparison, Pair } from '../contract/comparison';
import { findMatches, type ShownWindow } from './find-matches';
import { rankTrials, type UnreadTrial } from './ranking';
import { comparePair } from './reading-pairs';

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
    const references = shown.filter(({ role }) => role === 'reference');
    // Trials that the reference's one window stands for have a distance to it; others have none.
    const reference = references.find(({ reading }) => reading.window === window) ?? references.at(0) ?? null;
    return own.flatMap((a, i) => own.slice(i + 1).map((b) => comparePair(a, b, reference)));
  });
  const readings = trials.map(({ reading }) => reading);
  return { ranking: rankTrials(windows, readings, pairs, unread), pairs, match: findMatches(shown, windows) };
}
