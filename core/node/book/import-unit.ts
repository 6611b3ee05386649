import { createHash } from 'node:crypto';
import path from 'node:path';
import { AppError } from '../../base/errors';
import { askedWrongly } from '../../book/book-errors';
import { readRecord } from '../../book/read-record';
import { originalPath } from '../../book/unit-series';
import type { UnitRecord } from '../../contract/unit-record';
import { archiveRefused, isPhotoEntry, manifestName, readManifest, type ArchiveManifest } from './archive-format';
import type { Book } from './book';
import { withBookErrors } from './book-failures';
import type { FilePort } from './file-port';
import { makeBook, makeUnfinishedUnit, nameUnit } from './new-folder';
import { OpenArchive } from './open-archive';
import { codeOf } from './file-port';
import { recordOf, revisionOfName } from './revision-files';

export interface ImportOptions {
  /** Checks everything and writes nothing. */
  readonly dryRun: boolean;
  readonly signal: AbortSignal;
  readonly onProgress?: (done: number, inAll: number) => void;
}

export interface Imported {
  readonly unit: UnitRecord;
  readonly revisions: number;
  readonly photos: number;
  readonly shared: boolean;
  /** false: nothing was written, since it was a dry run, or the book has all of it already. */
  readonly isWritten: boolean;
  readonly isThere: boolean;
}

async function wholeText(archive: OpenArchive, name: string): Promise<string> {
  const parts: Uint8Array[] = [];
  for await (const part of archive.read(name)) parts.push(part);
  return Buffer.concat(parts).toString('utf8');
}

/** An entry's parts; after the last one its length and checksum have been compared with the manifest's. */
async function* checkedParts(
  archive: OpenArchive,
  { name, bytes, sha256 }: ArchiveManifest['files'][number],
  signal: AbortSignal,
): AsyncGenerator<Uint8Array> {
  const hash = createHash('sha256');
  let length = 0;
  for await (const part of archive.read(name)) {
    signal.throwIfAborted();
    hash.update(part);
    length += part.length;
    yield part;
  }
  if (length !== bytes || hash.digest('hex') !== sha256)
    throw archiveRefused(archive.called, `${name} is not what its checksum says`);
}

/** The manifest, once it names exactly what the archive holds. */
async function manifestOf(archive: OpenArchive): Promise<ArchiveManifest> {
  const manifest = readManifest(await wholeText(archive, manifestName), archive.called);
  const named = manifest.files.map(({ name }) => name);
  const held = new Set(archive.names);
  if (new Set(named).size !== named.length || named.length !== held.size || named.some((name) => !held.has(name)))
    throw archiveRefused(archive.called, `it does not hold what its ${manifestName} says`);
  const sums = named.filter(isPhotoEntry).map((name) => path.basename(name).slice(0, 64));
  if (new Set(sums).size !== sums.length) throw archiveRefused(archive.called, 'it holds a photo twice');
  for (const { name, sha256 } of manifest.files) {
    if (isPhotoEntry(name) && !path.basename(name).startsWith(`${sha256}.`))
      throw archiveRefused(archive.called, `${name} is not named after its checksum`);
  }
  return manifest;
}

function revisionIn(archive: OpenArchive, name: string, text: string, unit: string): UnitRecord {
  let record: UnitRecord;
  try {
    record = readRecord(text, `${archive.called}: ${name}`);
  } catch (error) {
    if (error instanceof AppError && error.code === 'RECORD_DAMAGED')
      throw archiveRefused(archive.called, error.message);
    throw error;
  }
  if (record.id !== unit || record.revision !== revisionOfName(path.basename(name)))
    throw archiveRefused(archive.called, `${name} is the revision of another unit or number`);
  return record;
}

/** Reads all of an archive and checks it: every checksum, every record, every photo that a record speaks of. */
async function verify(archive: OpenArchive, manifest: ArchiveManifest, options: ImportOptions): Promise<UnitRecord[]> {
  const revisions: UnitRecord[] = [];
  for (const [i, file] of manifest.files.entries()) {
    options.onProgress?.(i, manifest.files.length);
    const parts: Uint8Array[] = [];
    for await (const part of checkedParts(archive, file, options.signal))
      if (!isPhotoEntry(file.name)) parts.push(part);
    if (!isPhotoEntry(file.name))
      revisions.push(revisionIn(archive, file.name, Buffer.concat(parts).toString('utf8'), manifest.unit));
  }
  if (revisions.length === 0) throw archiveRefused(archive.called, 'it holds no revision');
  for (const photo of revisions.flatMap(({ photos }) => photos)) {
    if (!archive.names.includes(originalPath(photo)))
      throw archiveRefused(archive.called, `the original of ${JSON.stringify(photo.name)} is missing`);
  }
  return revisions.sort((a, b) => a.revision - b.revision);
}

/** Whether the book holds the very same revisions. @throws AppError UNIT_EXISTS  others of this unit */
async function isThere(book: Book, manifest: ArchiveManifest, archive: OpenArchive): Promise<boolean> {
  const folder = book.unitFolder(manifest.unit);
  if ((await book.port.facts(folder)) === null) return false;
  for (const { name } of manifest.files.filter((file) => !isPhotoEntry(file.name))) {
    const kept = await readOrNull(book.port, path.join(folder, name));
    if (kept === null || new TextDecoder().decode(kept) !== (await wholeText(archive, name))) {
      const message = `the book has a unit ${manifest.unit} already, with other revisions`;
      throw askedWrongly('UNIT_EXISTS', message, 'Nothing was written. Import it into another book (--book DIR).');
    }
  }
  return true;
}

async function readOrNull(port: FilePort, file: string): Promise<Uint8Array | null> {
  try {
    return await port.readFile(file);
  } catch (error) {
    if (codeOf(error) === 'ENOENT') return null;
    throw error;
  }
}

async function writeNew(port: FilePort, place: string, parts: AsyncIterable<Uint8Array>): Promise<void> {
  const file = await port.openExclusively(place);
  try {
    for await (const part of parts) await file.write(part);
    await file.fsync();
  } finally {
    await file.close();
  }
}

/** Writes the unit beside the others under a hidden name; it gets its own once all of it is on the disk. */
async function write(
  book: Book,
  archive: OpenArchive,
  manifest: ArchiveManifest,
  newest: UnitRecord,
  options: ImportOptions,
): Promise<void> {
  const { port } = book;
  await makeBook(port, book.folder);
  const folder = await makeUnfinishedUnit(port, book.folder, manifest.unit);
  try {
    for (const [i, file] of manifest.files.entries()) {
      options.onProgress?.(i, manifest.files.length);
      await writeNew(port, path.join(folder, file.name), checkedParts(archive, file, options.signal));
    }
    await writeNew(port, recordOf(folder), archive.read(`revisions/${newest.revision}.json`));
    await nameUnit(port, book.folder, folder, manifest.unit);
  } catch (error) {
    await port.removeFolder(folder);
    throw error;
  }
}

/** The id of the unit that an archive says it holds. @throws AppError ARCHIVE_REFUSED, ARCHIVE_NOT_READ, ARCHIVE_TOO_NEW */
export async function unitIn(file: string, called: string): Promise<string> {
  const archive = await OpenArchive.open(file, called);
  try {
    return (await manifestOf(archive)).unit;
  } finally {
    archive.close();
  }
}

/**
 * Puts the unit of an archive into a book. All of the archive is read and checked before anything is written; what is
 * wrong with any of it refuses the whole.
 *
 * @param called  the archive as the user called it
 * @throws AppError ARCHIVE_REFUSED, ARCHIVE_NOT_READ, ARCHIVE_TOO_NEW, RECORD_TOO_NEW, UNIT_EXISTS
 * @rule BK22, BK23
 */
export async function importUnit(book: Book, file: string, called: string, options: ImportOptions): Promise<Imported> {
  const archive = await OpenArchive.open(file, called);
  try {
    const manifest = await manifestOf(archive);
    const revisions = await verify(archive, manifest, options);
    const newest = revisions[revisions.length - 1];
    return await withBookErrors(book.folder, async () => {
      const there = await isThere(book, manifest, archive);
      const isWritten = !there && !options.dryRun;
      if (isWritten) await write(book, archive, manifest, newest, options);
      const photos = manifest.files.filter(({ name }) => isPhotoEntry(name)).length;
      const { shared } = manifest;
      return { unit: newest, revisions: revisions.length, photos, shared, isWritten, isThere: there };
    });
  } finally {
    archive.close();
  }
}
