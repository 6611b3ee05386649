import { randomBytes } from 'node:crypto';
import { open, stat } from 'node:fs/promises';
import path from 'node:path';
import { AppError } from '../../base/errors';
import { archiveTooLarge, hasArchiveEnding } from '../../contract/archive-file';
import type { PhotoId } from '../../contract/bench';
import type { AddedArchive } from '../../contract/book-verbs';
import { manifestName } from '../book/archive-format';
import type { UploadKind } from './uploads';

/** An archive that came over the wire may have as many bytes: some two hundred photos of a camera. */
export const mostArchiveBytes = 2 * 2 ** 30;

/** A unit in one file that came over the wire. */
export const archiveUpload: UploadKind = {
  mostBytes: mostArchiveBytes,
  tooLarge: (name) => archiveTooLarge(name, mostArchiveBytes),
  again: 'drop the unit once more',
};

/** A zip file begins with an entry: signature, 26 bytes on the length of its name, 30 bytes on the name. @source APPNOTE 4.3.7 */
const headBytes = 30 + manifestName.length;

function beginsAsArchive(head: Buffer): boolean {
  return (
    head.length === headBytes &&
    head.readUInt32LE(0) === 0x04034b50 &&
    head.readUInt16LE(26) === manifestName.length &&
    head.toString('latin1', 30) === manifestName
  );
}

/** Whether a file is meant as a unit in one file, by its ending or by how it begins. What it holds is judged on import. */
export async function isArchive(place: string, name: string): Promise<boolean> {
  if (hasArchiveEnding(name)) return true;
  try {
    if (!(await stat(place)).isFile()) return false;
    const file = await open(place, 'r');
    try {
      const { buffer, bytesRead } = await file.read(Buffer.alloc(headBytes), 0, headBytes, 0);
      return beginsAsArchive(buffer.subarray(0, bytesRead));
    } finally {
      await file.close();
    }
  } catch (error) {
    // Whoever reads it as a photo has the words for why it cannot be read.
    if (/^E[A-Z]+$/.test((error as NodeJS.ErrnoException).code ?? '')) return false;
    throw error;
  }
}

export interface PlacedArchive {
  readonly name: string;
  readonly path: string;
}

/** Units in one file that wait for being taken into the book: the page knows their ids and names only. @rule BE4 */
export class Archives {
  private readonly waiting = new Map<PhotoId, PlacedArchive>();

  add(place: string, name: string): AddedArchive {
    const archive = randomBytes(12).toString('base64url');
    this.waiting.set(archive, { name, path: path.resolve(place) });
    return { archive, name };
  }

  list(): AddedArchive[] {
    return [...this.waiting].map(([archive, { name }]) => ({ archive, name }));
  }

  /** @throws AppError ARCHIVE_GONE */
  take(id: PhotoId): PlacedArchive {
    const archive = this.waiting.get(id);
    this.waiting.delete(id);
    if (archive) return archive;
    throw new AppError('usage', 'ARCHIVE_GONE', 'This file is not here any more.', 'Drop it once more.');
  }
}
