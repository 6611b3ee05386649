import { stat } from 'node:fs/promises';
import type { MeasureJob, PhotoRef } from '../../contract/measure';
import { printable } from '../../display/figure-text';

function photosOf({ photo, bracket = [photo], lampOff, flatField, printPhoto }: MeasureJob): PhotoRef[] {
  return [...bracket, lampOff, flatField, printPhoto].flatMap((one) => one ?? []);
}

/**
 * The photos of a request that are not there, each once, with what names it: all at once, so that one look mends them all.
 *
 * @returns lines for a person; empty when every photo is there. Any other trouble with a file shows when it is read
 * @rule CL19
 */
export async function missingPhotos(jobs: readonly MeasureJob[]): Promise<string[]> {
  const namedBy = new Map<string, { readonly file: string; readonly names: string[] }>();
  for (const job of jobs) {
    for (const { path, file } of photosOf(job)) {
      const entry = namedBy.get(path) ?? { file, names: [] };
      if (!entry.names.includes(job.name)) entry.names.push(job.name);
      namedBy.set(path, entry);
    }
  }
  const lines: string[] = [];
  for (const [path, { file, names }] of namedBy) {
    const isMissing = await stat(path).then(
      () => false,
      (error: NodeJS.ErrnoException) => error.code === 'ENOENT' || error.code === 'ENOTDIR',
    );
    if (isMissing) lines.push(printable(`${file} (${names.join(', ')})`));
  }
  return lines;
}

/** What to do about photos that are missing, by where they were named. */
const remedies = {
  series: 'Check the names in the series file; paths belong to its folder.',
  unit: "'evendial unit check' tells more; put the originals from a copy of the book in their place.",
};

/** What is missing, as one message; null when nothing is. @rule CL19 */
export function missingText(lines: readonly string[], namedIn: keyof typeof remedies): string | null {
  if (lines.length === 0) return null;
  const head = lines.length === 1 ? 'a photo is missing:' : `${lines.length} photos are missing:`;
  const rest = '  The others are measured.';
  return [head, ...lines.map((line) => `  ${line}`), `  ${remedies[namedIn]}`, rest].join('\n');
}
