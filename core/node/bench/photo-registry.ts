import { randomBytes } from 'node:crypto';
import { stat } from 'node:fs/promises';
import path from 'node:path';
import { isDeepStrictEqual } from 'node:util';
import { AppError } from '../../base/errors';
import type { StatedOfPhoto } from '../../book/unit-series';
import type { BenchPhoto, PhotoId } from '../../contract/bench';
import type { PhotoRef } from '../../contract/measure';
import { photoRefOf as refOfStated } from '../../contract/series';
import { photoEmpty, photoMissing, photoTooLarge, photoUnreadable } from '../decode/photo-errors';

/** Ids are drawn at random, so that one session's say nothing about another's, and nobody guesses them. */
const newId = (): PhotoId => randomBytes(12).toString('base64url');
const mostPhotos = 2000;

export interface PlacedPhoto extends BenchPhoto {
  readonly path: string;
  /** By the record of the unit that it was laid from; of any other photo nothing. */
  readonly stated: StatedOfPhoto;
}

interface PhotoFacts {
  /** Left out: that of the file. */
  readonly name?: string;
  readonly isSample: boolean;
  readonly stated?: StatedOfPhoto;
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
  async add(place: string, facts: PhotoFacts): Promise<BenchPhoto> {
    const name = facts.name ?? path.basename(place);
    if (this.photos.size >= mostPhotos) {
      const message = `there are ${mostPhotos} photos on the bench already`;
      throw new AppError('usage', 'BENCH_FULL', message, 'Take some off first.');
    }
    const sizeBytes = await sizeOf(place, name, this.mostBytes);
    const { isSample, stated = {} } = facts;
    const photo = { id: newId(), name, sizeBytes, isSample, path: path.resolve(place), stated };
    this.photos.set(photo.id, photo);
    return withoutPath(photo);
  }

  list(): BenchPhoto[] {
    return [...this.photos.values()].map(withoutPath);
  }

  /** The photo that lies here from this place of the disk, with the same stated of it: otherwise it has other figures. */
  at(place: string, stated: StatedOfPhoto): BenchPhoto | undefined {
    const isIt = (one: PlacedPhoto): boolean =>
      one.path === path.resolve(place) && isDeepStrictEqual(one.stated, stated);
    const photo = [...this.photos.values()].find(isIt);
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

/** The photo as the engine is given it. */
export function photoRefOf({ name, path: place, stated }: Pick<PlacedPhoto, 'name' | 'path' | 'stated'>): PhotoRef {
  return refOfStated({ file: name, ...stated }, () => place);
}

/** A photo that another one is read with: what is not stated of its encoding is that of the other. */
export function helperRefOf(photo: PlacedPhoto, lit: PlacedPhoto): PhotoRef {
  const { encoding = lit.stated.encoding } = photo.stated;
  return photoRefOf({ ...photo, stated: { ...photo.stated, encoding } });
}
