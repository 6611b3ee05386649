import type { ReadingRow } from './csv';
import { printable } from '../../display/figure-text';
import { mapNameOf } from './row-names';
import { hangingLines } from './wrap';

const pictures = ['window', 'luminance', 'unevenness', 'chromaticity', 'print-mask'];
const tables = ['glow-luminance', 'chromaticity'];

/** What `--maps` has written, and under which names. @rule CL14 */
export function mapsText(rows: readonly ReadingRow[], folder: string): string {
  const names = rows.flatMap(({ entry }) => ('error' in entry ? [] : [mapNameOf(entry) ?? []])).flat();
  const where = printable(folder);
  if (names.length === 0) return `  No maps in ${where}: nothing was measured.\n`;
  const count = names.length * (pictures.length + tables.length);
  const [first] = names;
  const shown = (kinds: readonly string[], ending: string): string =>
    kinds.map((kind, i) => `${i === 0 ? (names.length > 1 ? 'NAME' : first) : ''}.${kind}.${ending}`).join(', ');
  return [
    `  ${count} files in ${where}`,
    ...hangingLines('    pictures: ', shown(pictures, 'png')),
    ...hangingLines('    tables:   ', shown(tables, 'csv')),
    ...(names.length > 1 ? hangingLines('    NAME:     ', names.join(', ')) : []),
    '',
  ].join('\n');
}
