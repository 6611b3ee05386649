import { unlinkSync } from 'node:fs';
import { mkdir, rename, unlink, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { AppError } from '../../base/errors';
import { systemWords } from '../system-words';

/** Files under way, under their temporary names. */
const underWay = new Set<string>();

/** Removes what a stopped run was writing. Safe to call at any time. */
export function removeUnfinishedFilesSync(): void {
  for (const file of underWay) {
    try {
      unlinkSync(file);
    } catch (error) {
      // Renamed or not yet made: nothing is left of it.
      if ((error as NodeJS.ErrnoException).code !== 'ENOENT') throw error;
    }
  }
  underWay.clear();
}

function notWritten(file: string, error: unknown): AppError {
  const remedy = 'Choose a folder that you may write to, with room on its disk.';
  return new AppError('usage', 'FILE_NOT_WRITTEN', `${file} cannot be written: ${systemWords(error)}`, remedy);
}

/**
 * Writes a file whole or not at all: under a temporary name beside it, then renamed. Makes the folder when needed.
 *
 * @throws AppError FILE_NOT_WRITTEN, or the signal's reason when it aborts
 * @rule CL9
 */
export async function writeWholeFile(file: string, content: string | Uint8Array, signal: AbortSignal): Promise<void> {
  signal.throwIfAborted();
  const temporary = `${file}.${process.pid}.unfinished`;
  underWay.add(temporary);
  try {
    await mkdir(path.dirname(file), { recursive: true });
    await writeFile(temporary, content, { signal });
    await rename(temporary, file);
  } catch (error) {
    // What could not be written is told below; that it cannot be removed either is no news.
    await unlink(temporary).catch(() => undefined);
    signal.throwIfAborted();
    throw notWritten(file, error);
  } finally {
    underWay.delete(temporary);
  }
}
