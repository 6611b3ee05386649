import path from 'node:path';
import { hasArchiveEnding } from '../core/contract/archive-file';

/** What a start of the program asks for; all places are absolute. */
export interface StartWords {
  /** Units in one file. */
  readonly archives: readonly string[];
  /** `--book=DIR`; null: not said. */
  readonly book: string | null;
  /** `--watch=DIR`, whose new photos are measured; null: none. */
  readonly watch: string | null;
}

/** @param folder  where whoever started it stood: that need not be where this program stands */
export function readStartWords(words: readonly string[], folder: string): StartWords {
  const placeIn = (option: string): string | null => {
    const given = words.find((word) => word.startsWith(option))?.slice(option.length);
    return given ? path.resolve(folder, given) : null;
  };
  return {
    archives: words
      .filter((word) => !word.startsWith('-') && hasArchiveEnding(word))
      .map((word) => path.resolve(folder, word)),
    book: placeIn('--book='),
    watch: placeIn('--watch='),
  };
}
