import type { MeasureResult } from '../contract/measure';
import type { ShownWindow } from './find-matches';
import type { UnreadTrial } from './ranking';

/** What a series has measured, as it is compared. */
export function shownWindows(result: MeasureResult): ShownWindow[] {
  return result.windows.flatMap((entry) => {
    if ('failed' in entry) return [];
    const { role, reading, facts, witness } = entry;
    return [{ role, reading, facts, witness: witness && 'xyz' in witness ? witness : null }];
  });
}

/** Trials whose photo gave no reading, and why. */
export function unreadTrials(result: MeasureResult): UnreadTrial[] {
  return result.windows.flatMap((entry) => {
    if (!('failed' in entry) || entry.role !== 'trial') return [];
    const { name, window, failed } = entry;
    return [{ name, window, reason: failed.error.message.replace(/\.$/, '') }];
  });
}
