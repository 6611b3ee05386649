import { isPhotoEntry, manifestName, type ArchiveManifest } from './archive-format';
import { onePart, writeZip, type ZipEntry } from './write-zip';

/** What goes into an archive, each file read when its turn comes. */
export interface ArchiveContent {
  readonly manifest: ArchiveManifest;
  readonly read: (name: string) => AsyncIterable<Uint8Array>;
  /** Stands as the time of every entry, so that the same unit gives the same archive. */
  readonly savedAt: string;
}

/**
 * Writes an archive whole or not at all, flushed, in the place of what has this name.
 *
 * @throws AppError FILE_NOT_WRITTEN, or what reading a file threw
 * @rule BK22
 */
export function writeArchive(
  file: string,
  { manifest, read, savedAt }: ArchiveContent,
  signal: AbortSignal,
): Promise<void> {
  const first: ZipEntry = {
    name: manifestName,
    storedBytes: null,
    read: () => onePart(new TextEncoder().encode(`${JSON.stringify(manifest, null, 1)}\n`)),
  };
  const others = manifest.files.map(({ name, bytes }) => ({
    name,
    storedBytes: isPhotoEntry(name) ? bytes : null,
    read: () => read(name),
  }));
  return writeZip(file, [first, ...others], savedAt, signal);
}
