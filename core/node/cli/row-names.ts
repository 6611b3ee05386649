import path from 'node:path';
import type { Reading } from '../../contract/readings';
import type { ReadingRow } from './csv';
import { printable } from '../../display/figure-text';

const maskEnding = '.print-mask.png';

/** The name that a reading's map files share; null when none were written. */
export function mapNameOf(reading: Reading): string | null {
  return reading.maps === undefined ? null : path.posix.basename(reading.maps.printMask, maskEnding);
}

function plainName({ entry, failedAs }: ReadingRow, withWindow: boolean): string {
  if ('error' in entry) return failedAs ?? entry.file;
  return entry.name + (withWindow && entry.window !== 'window' ? `, ${entry.window}` : '');
}

/** What tells two readings of one name apart: their map files, else their photos. */
function apart(reading: Reading): string {
  const maps = mapNameOf(reading);
  return maps === null ? (reading.photos[0]?.file ?? '') : `maps: ${maps}`;
}

/** Names to read, one a row: readings of the same name show what tells them apart. @rule CL14 */
export function rowNames(rows: readonly ReadingRow[], withWindow = true): string[] {
  const plain = rows.map((row) => plainName(row, withWindow));
  return rows.map(({ entry }, i) => {
    const repeated = plain.filter((name) => name === plain[i]).length > 1;
    return printable(repeated && !('error' in entry) ? `${plain[i]} (${apart(entry)})` : plain[i]);
  });
}

/** Whether the readings are of several windows, so that each has to name its own. */
export function hasSeveralWindows(rows: readonly ReadingRow[]): boolean {
  return new Set(rows.flatMap(({ entry }) => ('error' in entry ? [] : [entry.window]))).size > 1;
}
