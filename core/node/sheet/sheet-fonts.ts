import { existsSync, readFileSync } from 'node:fs';
import path from 'node:path';

/** How letters look: `words` is judgement in words. */
export const faces = ['plain', 'strong', 'words'] as const;
export type Face = (typeof faces)[number];

/** The parts that Source Sans is cut into; the first that has a letter is taken. */
const parts = ['latin', 'latin-ext', 'greek', 'greek-ext', 'cyrillic', 'cyrillic-ext', 'vietnamese'];
const weightOf: Readonly<Record<Face, string>> = { plain: '400-normal', strong: '600-normal', words: '400-italic' };
/** Has many signs that Source Sans lacks. */
const secondOf: Readonly<Record<Face, string>> = {
  plain: 'DejaVuSans.ttf',
  strong: 'DejaVuSans-Bold.ttf',
  words: 'DejaVuSans-Oblique.ttf',
};

/** Font files of a face, the one to be asked first in front. */
export function fontFilesOf(face: Face): string[] {
  return [...parts.map((part) => `source-sans-3-${part}-${weightOf[face]}.woff`), secondOf[face]];
}

/** The fonts stand beside the bundled programs, a folder above the window's, or in dist/ when the sources run. */
function fontsFolder(): string {
  const places = ['fonts', '../fonts', '../../../dist/fonts'].map((place) => path.resolve(__dirname, place));
  const found = places.find((place) => existsSync(place));
  if (found === undefined) throw new Error(`no fonts in ${places.join(', ')}`);
  return found;
}

export function readFont(file: string): Buffer {
  return readFileSync(path.join(fontsFolder(), file));
}
