import { createHash } from 'node:crypto';
import { mkdir, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { AppError } from '../../base/errors';
import { recordText } from '../../book/read-record';
import { sharedRecord, type SharedPhoto } from '../../book/shared-record';
import { originalPath } from '../../book/unit-series';
import type { UnitPhoto } from '../../contract/unit-record';
import type { PhotoDecoder } from '../decode-process';
import { isPhotoEntry, type ArchiveManifest } from './archive-format';
import type { Book } from './book';
import { sharedPhotoFile } from './share-photo';
import { newUnitId } from './unit-ids';
import { writeArchive } from './write-archive';
import { notWritten, onePart } from './write-zip';

export interface ShareOptions {
  readonly decoder: Pick<PhotoDecoder, 'decode'>;
  readonly signal: AbortSignal;
  readonly onProgress?: (done: number, inAll: number) => void;
}

export interface Shared {
  readonly unit: string;
  readonly photos: number;
  /** Photos that could not be made again, by their names. */
  readonly leftOut: readonly string[];
}

const sha256 = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

/** Makes one photo again into a folder; null: it cannot be decoded. */
async function makeAgain(
  place: string,
  folder: string,
  { decoder, signal }: ShareOptions,
): Promise<SharedPhoto | null> {
  let decoded;
  try {
    decoded = await decoder.decode(place, {}, signal);
  } catch (error) {
    if (error instanceof AppError && error.kind === 'photo') return null;
    throw error;
  }
  const bytes = await sharedPhotoFile(decoded);
  const made = { sha256: sha256(bytes), ending: 'png', bytes: bytes.length };
  await writeFile(path.join(folder, made.sha256), bytes);
  const { exposureS, fNumber, iso } = decoded.facts.camera;
  return {
    ...made,
    ...(exposureS === undefined ? {} : { exposureS }),
    ...(fNumber === undefined ? {} : { fNumber }),
    ...(iso === undefined ? {} : { iso }),
  };
}

/** Hidden, and beside the file: there is room for the photos where they are to be in the end. */
async function workingFolder(file: string): Promise<string> {
  await mkdir(path.dirname(file), { recursive: true });
  return mkdtemp(path.join(path.dirname(file), '.evendial-share-'));
}

async function* fileParts(file: string): AsyncGenerator<Uint8Array> {
  yield await readFile(file);
}

/**
 * Writes a unit to be given away: its newest record without personal fields, and every photo made again without what it
 * says of persons and places. A photo that cannot be decoded is left out.
 *
 * @throws AppError FILE_NOT_WRITTEN; of the book
 * @rule BK26
 */
export async function shareUnit(book: Book, id: string, file: string, options: ShareOptions): Promise<Shared> {
  const unit = await book.read(id);
  const refuse = (error: unknown): never => {
    throw notWritten(file, error);
  };
  const folder = await workingFolder(file).catch(refuse);
  try {
    const made = new Map<string, SharedPhoto>();
    const leftOut: string[] = [];
    const originals = new Map<string, UnitPhoto>(unit.photos.map((photo) => [photo.sha256, photo]));
    for (const [sum, photo] of originals) {
      options.onProgress?.(made.size + leftOut.length, originals.size);
      const again = await makeAgain(path.join(book.unitFolder(id), originalPath(photo)), folder, options).catch(refuse);
      if (again) made.set(sum, again);
      else leftOut.push(photo.name);
    }
    const record = sharedRecord(unit, newUnitId(unit.name), made);
    const text = recordText(record);
    const files: ArchiveManifest['files'] = [
      { name: 'revisions/1.json', bytes: Buffer.byteLength(text), sha256: sha256(Buffer.from(text)) },
    ];
    // Two originals can have the same pixels.
    const distinct = new Map([...made.values()].map((photo) => [originalPath(photo), photo]));
    for (const [name, { bytes, sha256: sum }] of distinct) files.push({ name, bytes, sha256: sum });
    const { name } = record;
    const manifest: ArchiveManifest = {
      format: 'evendial-archive',
      version: 1,
      unit: record.id,
      name,
      shared: true,
      files,
    };
    const read = (entry: string): AsyncIterable<Uint8Array> =>
      isPhotoEntry(entry)
        ? fileParts(path.join(folder, path.basename(entry).slice(0, 64)))
        : onePart(new TextEncoder().encode(text));
    await writeArchive(file, { manifest, read, savedAt: unit.savedAt }, options.signal);
    return { unit: record.id, photos: distinct.size, leftOut };
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}
