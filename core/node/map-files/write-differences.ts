import { differenceMap } from '../../display/difference-map';
import type { MappedWindow } from '../../contract/measure';
import { differenceCsv } from './map-csv';
import { differencePicture } from './reading-pictures';
import { pngOf } from './write-maps';

/** Two readings of one window. */
export interface MappedPair {
  readonly a: MappedWindow;
  readonly b: MappedWindow;
}

/** Why two windows do not lie on the same mm, as far as their readings tell; null: they do. @rule PR7 */
export function whyNoDifference({ a, b }: MappedPair): string | null {
  const apart = [a, b].find(({ reading }) => reading.gates.some(({ code }) => code === 'NOT_REGISTERED'));
  return apart ? `${apart.reading.name} could not be laid on the series' first photo by its print` : null;
}

/**
 * Writes where b has more of its light than a, as a table and a picture: `NAME.difference.csv` and `.png`.
 *
 * @param name  file name without ending, as `differenceNames` gives it
 * @param write puts a file of that name into the folder of the maps
 * @rule PR7
 */
export async function writeDifference(
  { a, b }: MappedPair,
  name: string,
  write: (file: string, content: string | Uint8Array) => Promise<void>,
): Promise<void> {
  const difference = differenceMap(a.maps, b.maps);
  await write(`${name}.difference.csv`, differenceCsv(difference, b.maps));
  await write(`${name}.difference.png`, await pngOf(differencePicture(difference, a, b)));
}
