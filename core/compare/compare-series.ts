import type { Comparison, Pair } from '../contract/comparison';
import { findMatches, type ShownWindow } from './find-matches';
import { rankTrials, type UnreadTrial } from './ranking';
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
  return { ranking: rankTrials(windows, readings, pairs, unread), pairs, match: findMatches(shown, windows) };
}
