import { createWriteStream } from 'node:fs';
import { mkdir, open, rename, rm } from 'node:fs/promises';
import path from 'node:path';
import { pipeline } from 'node:stream/promises';
import { Readable } from 'node:stream';
import { ZipFile } from 'yazl';
import { AppError } from '../../base/errors';
import { systemWords } from '../system-words';
import { codeOf } from './file-port';
import { unfinishedName } from './whole-file';

export interface ZipEntry {
  readonly name: string;
  /** Photos are packed already: they are stored as they are, with their length told beforehand. */
  readonly storedBytes: number | null;
  /** Called when its turn comes. */
  read(): AsyncIterable<Uint8Array>;
}

/** What the disk refused while a file was being written, as an error that a person can act on; anything else as it is. */
export function notWritten(file: string, error: unknown): unknown {
  if (error instanceof AppError || !/^E[A-Z]+$/.test(codeOf(error))) return error;
  const remedy = 'Choose a folder that you may write to, with room on its disk.';
  return new AppError('usage', 'FILE_NOT_WRITTEN', `${file} cannot be written: ${systemWords(error)}`, remedy);
}

function zipOf(entries: readonly ZipEntry[], mtime: Date, onError: (error: Error) => void): ZipFile {
  const zip = new ZipFile();
  zip.on('error', onError);
  for (const { name, storedBytes, read } of entries) {
    const options = { mtime, compress: storedBytes === null, ...(storedBytes === null ? {} : { size: storedBytes }) };
    zip.addReadStreamLazy(name, options, (give) => {
      const stream = Readable.from(read(), { objectMode: false });
      stream.on('error', onError);
      give(null, stream);
    });
  }
  zip.end();
  return zip;
}

/**
 * Writes a zip whole or not at all, flushed, in the place of what has this name.
 *
 * @param savedAt  stands as the time of every entry, so that the same entries give the same file; ISO 8601
 * @throws AppError FILE_NOT_WRITTEN, or what reading an entry threw
 */
export async function writeZip(
  file: string,
  entries: readonly ZipEntry[],
  savedAt: string,
  signal: AbortSignal,
): Promise<void> {
  const unfinished = unfinishedName(file);
  const failed = new AbortController();
  let failure: Error | undefined;
  const fail = (error: Error): void => {
    failure ??= error;
    failed.abort();
  };
  signal.addEventListener('abort', () => failed.abort(), { once: true });
  try {
    await mkdir(path.dirname(file), { recursive: true });
    const out = createWriteStream(unfinished, { flags: 'wx' });
    await pipeline(zipOf(entries, new Date(savedAt), fail).outputStream, out, { signal: failed.signal });
    const handle = await open(unfinished, 'r+');
    await handle.sync();
    await handle.close();
    await rename(unfinished, file);
  } catch (error) {
    // What cannot be written is told below; that it cannot be removed either is no news.
    await rm(unfinished, { force: true }).catch(() => undefined);
    signal.throwIfAborted();
    throw notWritten(file, failure ?? error);
  }
}

/** Bytes that are there already, as an entry reads them. */
export async function* onePart(bytes: Uint8Array): AsyncGenerator<Uint8Array> {
  yield bytes;
}
