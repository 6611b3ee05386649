import type { MeasuredWindow, MeasureRequest, MeasureResult } from '../../contract/measure';
import type { FailedReading, MapPaths, Reading, ReadingsDocument } from '../../contract/readings';
import type { ReadingRow } from './csv';

/** Paths of the map files of each measured window, as they are to stand in the document. */
export type PathsOfWindow = ReadonlyMap<MeasuredWindow, MapPaths>;

function entryOf(entry: MeasureResult['windows'][number], paths: PathsOfWindow): Reading | FailedReading {
  if ('failed' in entry) return entry.failed;
  const maps = paths.get(entry);
  const { timingMs, ...figures } = entry.reading;
  return maps === undefined ? entry.reading : { ...figures, maps, timingMs };
}

/**
 * The document of `--json`: readings in the order given, the reference's apart from the trials'.
 *
 * @rule CL11
 */
export function documentOf(request: MeasureRequest, result: MeasureResult, paths: PathsOfWindow): ReadingsDocument {
  const of = (role: 'trial' | 'reference'): (Reading | FailedReading)[] =>
    result.windows.filter((entry) => entry.role === role).map((entry) => entryOf(entry, paths));
  const hasReference = request.jobs.some((job) => job.role === 'reference');
  const document: ReadingsDocument = { format: 'evendial-readings', version: 1, readings: of('trial') };
  return hasReference ? { ...document, reference: of('reference') } : document;
}

/** The same entries for the table and the CSV: the reference first. */
export function rowsOf(document: ReadingsDocument): ReadingRow[] {
  return [
    ...(document.reference ?? []).map((entry): ReadingRow => ({ role: 'reference', entry })),
    ...document.readings.map((entry): ReadingRow => ({ role: 'trial', entry })),
  ];
}
