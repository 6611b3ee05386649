import { AppError } from '../../base/errors';
import type { MappedWindow, MeasuredWindow, MeasureResult } from '../../contract/measure';

/**
 * The only trial (or the reference) of a request with one window; its error when it has none. A reference that could not be read is an error too:
 * a reading that silently had none would not be what was asked for.
 */
export function onlyReading(
  result: MeasureResult,
  role: MeasuredWindow['role'] = 'trial',
): MeasuredWindow & MappedWindow {
  for (const entry of result.windows) {
    if (!('failed' in entry)) continue;
    const { message, remedy, code } = entry.failed.error;
    const about = entry.role === 'reference' ? `The reference cannot be used: ${message}` : message;
    throw new AppError(entry.kind, code, about, remedy);
  }
  const entry = result.windows.find((one) => one.role === role);
  if (!entry || 'failed' in entry || entry.maps === null) throw new Error(`measured without a ${role} or its maps`);
  return { ...entry, maps: entry.maps };
}
