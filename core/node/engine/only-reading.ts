import { AppError } from '../../base/errors';
import type { MappedWindow, MeasureResult } from '../../contract/measure';

/** The only reading of a request with one window; its error when it has none. */
export function onlyReading(result: MeasureResult): MappedWindow {
  const [entry] = result.windows;
  if ('failed' in entry) {
    const { code, message, remedy } = entry.failed.error;
    throw new AppError(entry.kind, code, message, remedy);
  }
  if (entry.maps === null) throw new Error('measured without maps');
  return { ...entry, maps: entry.maps };
}
