import { createWriteStream } from 'node:fs';
import { mkdir, open, rename, rm } from 'node:fs/promises';
import path from 'node:path';
import { pipeline } from 'node:stream/promises';
import { Readable } from 'node:stream';
import { ZipFile } from 'yazl';
import { AppError } from '../../base/errors';
import { systemWords } from '../system-words';
import { isPhotoEntry, manifestName, type ArchiveManifest } from './archive-format';
import { codeOf } from './file-port';
import { unfinishedName } from './whole-file';

/** What goes into an archive, each file read when its turn comes. */
export interface ArchiveContent {
  readonly manifest: ArchiveManifest;
  readonly read: (name: string) => AsyncIterable<Uint8Array>;
  /** Stands as the time of every entry, so that the same unit gives the same archive. */
  readonly savedAt: string;
}

/** What the disk refused while a file was being written, as an error that a person can act on; anything else as it is. */
export function notWritten(file: string, error: unknown): unknown {
  if (error instanceof AppError || !/^E[A-Z]+$/.test(codeOf(error))) return error;
  const remedy = 'Choose a folder that you may write to, with room on its disk.';
  return new AppError('usage', 'FILE_NOT_WRITTEN', `${file} cannot be written: ${systemWords(error)}`, remedy);
}

function zipOf({ manifest, read, savedAt }: ArchiveContent, onError: (error: Error) => void): ZipFile {
  const zip = new ZipFile();
  const mtime = new Date(savedAt);
  zip.on('error', onError);
  zip.addBuffer(Buffer.from(`${JSON.stringify(manifest, null, 1)}\n`), manifestName, { mtime });
  for (const { name, bytes } of manifest.files) {
    // Photos are packed already.
    const options = { mtime, compress: !isPhotoEntry(name), ...(isPhotoEntry(name) ? { size: bytes } : {}) };
    zip.addReadStreamLazy(name, options, (give) => {
      const stream = Readable.from(read(name), { objectMode: false });
      stream.on('error', onError);
      give(null, stream);
    });
  }
  zip.end();
  return zip;
}

/**
 * Writes an archive whole or not at all, flushed, in the place of what has this name.
 *
 * @throws AppError FILE_NOT_WRITTEN, or what reading a file threw
 * @rule BK22
 */
export async function writeArchive(file: string, content: ArchiveContent, signal: AbortSignal): Promise<void> {
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
    await pipeline(zipOf(content, fail).outputStream, out, { signal: failed.signal });
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
