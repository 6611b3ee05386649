import { randomBytes } from 'node:crypto';
import { stat } from 'node:fs/promises';
import path from 'node:path';
import { AppError } from '../../base/errors';
import type { BenchPhoto, PhotoId } from '../../contract/bench';
import type { PhotoRef } from '../../contract/measure';
import { photoEmpty, photoMissing, photoTooLarge, photoUnreadable } from '../decode/photo-errors';

/** Ids are drawn at random, so that one session's say nothing about another's, and nobody guesses them. */
const newId = (): PhotoId => randomBytes(12).toString('base64url');
const mostPhotos = 2000;

export interface PlacedPhoto extends BenchPhoto {
  readonly path: string;
}

async function sizeOf(place: string, name: string, mostBytes: number): Promise<number> {
  const facts = await stat(place).catch((error: NodeJS.ErrnoException) => {
    if (error.code === 'ENOENT' || error.code === 'ENOTDIR') throw photoMissing(name);
    throw photoUnreadable(name, error.code === 'EACCES' ? 'no permission' : 'the system refuses it');
  });
  if (!facts.isFile()) throw photoUnreadable(name, facts.isDirectory() ? 'it is a folder' : 'it is no plain file');
  if (facts.size === 0) throw photoEmpty(name);
  if (facts.size > mostBytes) {
    const mebibytes = (bytes: number): string => `${(bytes / 2 ** 20).toFixed(1)} MiB`;
    throw photoTooLarge(name, `${mebibytes(facts.size)}, at most ${mebibytes(mostBytes)} are read`);
  }
  return facts.size;
}

/** The photos on the bench: the page knows their ids and names, only this knows where they are. @rule BE4 */
export class PhotoRegistry {
  private readonly photos = new Map<PhotoId, PlacedPhoto>();

  constructor(private readonly mostBytes: number) {}

  /** @throws AppError of kind photo, for what cannot be a photo file */
  async add(place: string, facts: { readonly name?: string; readonly isSample: boolean }): Promise<BenchPhoto> {
    const name = facts.name ?? path.basename(place);
    if (this.photos.size >= mostPhotos) {
      const message = `there are ${mostPhotos} photos on the bench already`;
      throw new AppError('usage', 'BENCH_FULL', message, 'Take some off first.');
    }
    const sizeBytes = await sizeOf(place, name, this.mostBytes);
    const photo = { id: newId(), name, sizeBytes, isSample: facts.isSample, path: path.resolve(place) };
    this.photos.set(photo.id, photo);
    return withoutPath(photo);
  }

  list(): BenchPhoto[] {
    return [...this.photos.values()].map(withoutPath);
  }

  /** The photo that lies here from this place of the disk. */
  at(place: string): BenchPhoto | undefined {
    const photo = [...this.photos.values()].find((one) => one.path === path.resolve(place));
    return photo && withoutPath(photo);
  }

  has(id: PhotoId): boolean {
    return this.photos.has(id);
  }

  /** @throws AppError PHOTO_NOT_ON_BENCH */
  find(id: PhotoId): PlacedPhoto {
    const photo = this.photos.get(id);
    if (photo) return photo;
    const remedy = 'Add it again.';
    throw new AppError('usage', 'PHOTO_NOT_ON_BENCH', 'This photo is not on the bench any more.', remedy);
  }

  /** @returns the photo that was taken off; undefined when it was not there */
  remove(id: PhotoId): PlacedPhoto | undefined {
    const photo = this.photos.get(id);
    this.photos.delete(id);
    return photo;
  }
}

function withoutPath({ id, name, sizeBytes, isSample }: PlacedPhoto): BenchPhoto {
  return { id, name, sizeBytes, isSample };
}

/** The photo as the engine is given it: nothing is stated about its encoding and exposure. */
export function photoRefOf({ name, path: place }: Pick<PlacedPhoto, 'name' | 'path'>): PhotoRef {
  return { file: name, path: place, encoding: 'profile', encodingStated: false, exposure: {} };
}
