import { compareSeries } from '../../compare/compare-series';
import { namedAsInRecord } from '../../book/photo-names';
import { isMeasurable, requestOfUnit } from '../../book/unit-series';
import type { FailedWindow, MeasuredWindow, MeasureRequest, MeasureResult } from '../../contract/measure';
import type { UnitRecord } from '../../contract/unit-record';
import type { SheetSource } from '../../sheet/make-content';
import { sharedRecord } from '../../sheet/shared-record';
import { shownWindows, unreadTrials } from '../../compare/measured-series';

/**
 * What is to be measured for a unit's sheet; null: nothing, and the sheet is one without measured figures.
 *
 * @param resolvePath  turns an original's place in the unit into what the decoder opens
 */
export function sheetRequest(record: UnitRecord, resolvePath: (file: string) => string): MeasureRequest | null {
  return isMeasurable(record) ? { ...requestOfUnit(record, undefined, resolvePath), withMaps: true } : null;
}

/** What a sheet tells: the record, and what was measured of it. @param isShared without owner, serial number and notes */
export function sheetSource(
  record: UnitRecord,
  result: MeasureResult,
  isShared: boolean,
  program: string,
): SheetSource & { readonly failed: readonly FailedWindow[] } {
  // Messages name photos; on a shared sheet as it names them itself.
  const named = namedAsInRecord(result, (isShared ? sharedRecord(record) : record).photos);
  const measured = named.windows.filter((entry): entry is MeasuredWindow => 'reading' in entry);
  const failed = named.windows.filter((entry): entry is FailedWindow => 'failed' in entry);
  const windows = record.windows.map(({ name }) => name);
  const comparison = measured.length === 0 ? null : compareSeries(windows, shownWindows(named), unreadTrials(named));
  return { record, measured, failed, comparison, program, isShared };
}
