import { createHash } from 'node:crypto';
import path from 'node:path';
import { readRecord } from '../../book/read-record';
import { bookError } from '../../book/book-errors';
import { isPhotoEntry, type ArchiveManifest } from './archive-format';
import type { Book } from './book';
import { withBookErrors } from './book-failures';
import { originalOfName, photosOf } from './originals';
import { namesIn, revisionNumbers } from './revision-files';
import { writeArchive } from './write-archive';
import { onePart } from './write-zip';

export interface Exported {
  readonly revisions: number;
  readonly photos: number;
}

const notWhole = (place: string): Error =>
  bookError(
    'ORIGINAL_DAMAGED',
    `${place} is damaged: it has not the checksum of its name`,
    "'evendial unit check' tells more.",
  );

/** A file of the unit as it goes into the archive, judged by its checksum while it is read. */
async function* originalParts(book: Book, place: string, sha256: string): AsyncGenerator<Uint8Array> {
  const hash = createHash('sha256');
  for await (const part of book.port.readParts(place)) {
    hash.update(part);
    yield part;
  }
  if (hash.digest('hex') !== sha256) throw notWhole(place);
}

/**
 * Writes a unit with all its revisions and originals, byte for byte, as one archive.
 *
 * @throws AppError RECORD_DAMAGED, RECORD_TOO_NEW, ORIGINAL_DAMAGED, FILE_NOT_WRITTEN
 * @rule BK22
 */
export function exportUnit(book: Book, id: string, file: string, signal: AbortSignal): Promise<Exported> {
  return withBookErrors(book.folder, async () => {
    const folder = book.unitFolder(id);
    const unit = await book.read(id);
    const numbers = (await revisionNumbers(book.port, folder)).filter((n) => n <= unit.revision);
    const texts = new Map<string, Uint8Array>();
    for (const n of numbers) {
      const name = `revisions/${n}.json`;
      const bytes = await book.port.readFile(path.join(folder, name));
      readRecord(new TextDecoder().decode(bytes), path.join(folder, name));
      texts.set(name, bytes);
    }
    const files: ArchiveManifest['files'] = [...texts].map(([name, bytes]) => ({
      name,
      bytes: bytes.length,
      sha256: createHash('sha256').update(bytes).digest('hex'),
    }));
    for (const name of await namesIn(book.port, photosOf(folder))) {
      const original = originalOfName(name);
      const facts = original && (await book.port.facts(path.join(photosOf(folder), name)));
      if (original && facts) files.push({ name: `photos/${name}`, bytes: facts.bytes, sha256: original.sha256 });
    }
    const manifest: ArchiveManifest = {
      format: 'evendial-archive',
      version: 1,
      unit: id,
      name: unit.name,
      shared: false,
      files,
    };
    const read = (name: string): AsyncIterable<Uint8Array> =>
      isPhotoEntry(name)
        ? originalParts(book, path.join(folder, name), path.basename(name).slice(0, 64))
        : onePart(texts.get(name) ?? new Uint8Array());
    await writeArchive(file, { manifest, read, savedAt: unit.savedAt }, signal);
    return { revisions: texts.size, photos: files.length - texts.size };
  });
}
