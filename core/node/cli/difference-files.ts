import path from 'node:path';
import type { MeasureResult } from '../../contract/measure';
import { printable } from '../../display/figure-text';
import { differenceNames, mapNames } from '../map-files/map-names';
import { whyNoDifference, writeDifference, type MappedPair } from '../map-files/write-differences';
import { mappedWindows } from './measure';
import type { Shell } from './shell';
import { writeWholeFile } from './whole-files';
import { hangingLines } from './wrap';

/**
 * Writes the difference maps of every two readings of one window, the reference among them.
 *
 * @returns what was written and what was not, for a person
 * @rule PR7
 */
export async function writeAllDifferences(
  result: MeasureResult,
  folder: string,
  shell: Shell,
): Promise<{ readonly text: string }> {
  const measured = mappedWindows(result);
  const names = mapNames(measured.map(({ reading }) => reading));
  const pairs = measured.flatMap((a, i) =>
    measured
      .slice(i + 1)
      .flatMap((b, after): (MappedPair & { readonly of: [string, string] })[] =>
        a.reading.window === b.reading.window ? [{ a, b, of: [names[i], names[i + 1 + after]] }] : [],
      ),
  );
  const refused = new Set(pairs.flatMap((pair) => whyNoDifference(pair) ?? []));
  const written = pairs.filter((pair) => whyNoDifference(pair) === null);
  const files = differenceNames(written.map(({ of }) => of));
  for (const [i, pair] of written.entries()) {
    shell.progress(`differences ${i + 1} of ${written.length}`);
    await writeDifference(pair, files[i], (name, content) =>
      writeWholeFile(path.join(folder, name), content, shell.signal),
    );
  }
  shell.progress('');
  const lines = [
    `    differences: ${2 * written.length} files, NAME-minus-NAME.difference.png and .csv`,
    ...[...refused].flatMap((reason) => hangingLines('    none: ', printable(reason))),
  ];
  return { text: `${lines.join('\n')}\n` };
}
