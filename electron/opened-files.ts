import path from 'node:path';
import { hasArchiveEnding } from '../core/contract/archive-file';

/** Units in one file among the words that a program was started with. @param folder  where its caller stood */
export function archivesIn(words: readonly string[], folder: string): string[] {
  return words
    .filter((word) => !word.startsWith('-') && hasArchiveEnding(word))
    .map((word) => path.resolve(folder, word));
}
