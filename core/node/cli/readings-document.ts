import path from 'node:path';
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

/** The trial (and, of several, the window) that each failed photo is told under. */
export function namesOfFailed(request: MeasureRequest, result: MeasureResult): ReadonlyMap<FailedReading, string> {
  const names = new Map<FailedReading, string>();
  for (const entry of result.windows) {
    if (!('failed' in entry)) continue;
    const { name, window, role, failed } = entry;
    // A photo named on the command line gives its own name to the trial.
    if (path.parse(failed.file).name === name) continue;
    const windows = request.jobs.flatMap((job) => (job.role === role && job.name === name ? job.windows : []));
    const isOneOfSeveral = window !== null && windows.length > 1;
    names.set(failed, isOneOfSeveral ? `${name}, ${window}` : name);
  }
  return names;
}

/** The same entries for the table and the CSV: the reference first. */
export function rowsOf(
  document: ReadingsDocument,
  failed: ReadonlyMap<FailedReading, string> = new Map(),
): ReadingRow[] {
  const rowOf =
    (role: ReadingRow['role']) =>
    (entry: Reading | FailedReading): ReadingRow => {
      const failedAs = 'error' in entry ? failed.get(entry) : undefined;
      return failedAs === undefined ? { role, entry } : { role, entry, failedAs };
    };
  return [...(document.reference ?? []).map(rowOf('reference')), ...document.readings.map(rowOf('trial'))];
}
