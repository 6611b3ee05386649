import { compareSeries } from '../../compare/compare-series';
import { requestOfUnit } from '../../book/unit-series';
import type { FailedWindow, MeasuredWindow, MeasureRequest, MeasureResult } from '../../contract/measure';
import type { UnitRecord } from '../../contract/unit-record';
import type { SheetSource } from '../../sheet/make-content';
import { shownWindows, unreadTrials } from '../../compare/measured-series';

/**
 * What is to be measured for a unit's sheet; null: nothing, since a record may have no photos, or no windows yet.
 *
 * @param resolvePath  turns an original's place in the unit into what the decoder opens
 */
export function sheetRequest(record: UnitRecord, resolvePath: (file: string) => string): MeasureRequest | null {
  const { windows, photos } = record;
  const isThere = windows.length > 0 && photos.some(({ role }) => role === 'reference' || role === 'trial');
  return isThere ? { ...requestOfUnit(record, undefined, resolvePath), withMaps: true } : null;
}

/** What a sheet tells: the record, and what was measured of it. @param isShared without owner, serial number and notes */
export function sheetSource(
  record: UnitRecord,
  result: MeasureResult,
  isShared: boolean,
  program: string,
): SheetSource & { readonly failed: readonly FailedWindow[] } {
  const measured = result.windows.filter((entry): entry is MeasuredWindow => 'reading' in entry);
  const failed = result.windows.filter((entry): entry is FailedWindow => 'failed' in entry);
  const windows = record.windows.map(({ name }) => name);
  const comparison = measured.length === 0 ? null : compareSeries(windows, shownWindows(result), unreadTrials(result));
  return { record, measured, failed, comparison, program, isShared };
}
