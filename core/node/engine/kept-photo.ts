import { stat } from 'node:fs/promises';
import type { EnginePorts } from '../../engine';
import type { DecodedPhoto, PhotoFacts } from '../../photo/decoded-photo';
import { partOf } from '../../photo/reduced';
import { clampRegion } from '../decode/upright';

type DecodePhoto = EnginePorts['decodePhoto'];

interface KeptPhoto {
  readonly path: string;
  readonly stamp: string;
  readonly photo: DecodedPhoto;
}

/** A photo of 24 megapixels in 8 bits, or of 12 in 16; larger ones are not kept. */
const largestKeptBytes = 80 * 2 ** 20;
/** Of all kept photos together: a try, its reference and its lamp-off photo of 12 megapixels. */
const mostKeptBytes = 120 * 2 ** 20;

const bytesOf = ({ codes, linear }: DecodedPhoto): number => (codes?.byteLength ?? 0) + (linear?.byteLength ?? 0);

const wholeBytesOf = ({ widthPx, heightPx, bitDepth }: PhotoFacts): number =>
  3 * widthPx * heightPx * (bitDepth > 8 ? 2 : 1);

/** Changes when the file is replaced or written to; null when it cannot be looked at, for which the decoder has the words. */
async function stampOf(path: string): Promise<string | null> {
  const found = await stat(path, { bigint: true }).catch(() => null);
  return found && `${found.ino} ${found.size} ${found.mtimeNs}`;
}

/** The region of the photo, when all of it has been decoded. */
function partOfKept({ photo }: KeptPhoto, regionPx: Parameters<DecodePhoto>[1]['regionPx']): DecodedPhoto | null {
  const { widthPx, heightPx } = photo.facts;
  const asked = clampRegion(regionPx, widthPx, heightPx);
  const has = photo.region;
  const isWithin =
    asked.column >= has.column &&
    asked.row >= has.row &&
    asked.column + asked.width <= has.column + has.width &&
    asked.row + asked.height <= has.row + has.height;
  if (!isWithin) return null;
  return asked.width === has.width && asked.height === has.height ? photo : partOf(photo, asked);
}

/** Photos as they were decoded, the one that was asked for last at the end. */
class KeptPhotos {
  readonly #byPath = new Map<string, KeptPhoto>();

  /** The photo of a file that has not changed since. */
  of(path: string, stamp: string | null): KeptPhoto | null {
    const kept = this.#byPath.get(path);
    if (kept === undefined || kept.stamp !== stamp) return null;
    this.#byPath.delete(path);
    this.#byPath.set(path, kept);
    return kept;
  }

  /** Lets go of those that were not asked for the longest, to make room. */
  keep(kept: KeptPhoto): void {
    this.#byPath.delete(kept.path);
    let room = mostKeptBytes - bytesOf(kept.photo);
    for (const other of [...this.#byPath.values()].reverse()) {
      room -= bytesOf(other.photo);
      if (room < 0) this.#byPath.delete(other.path);
    }
    this.#byPath.set(kept.path, kept);
  }
}

/**
 * A decoder that remembers the photos it decoded last: while a corner is moved, or one photo is shown and measured, the same
 * files are asked for again and again, the reference with them. Asked for another part, it has the whole photo decoded, unless
 * that is a large one. A file that has changed meanwhile is decoded anew.
 *
 * @rule BE14
 */
export function keepingLastPhotos(decodePhoto: DecodePhoto): DecodePhoto {
  const photos = new KeptPhotos();
  return async (path, { regionPx }) => {
    const started = performance.now();
    const stamp = await stampOf(path);
    const known = photos.of(path, stamp);
    const part = known && partOfKept(known, regionPx);
    if (part) return { ...part, decodeMs: performance.now() - started };
    const isWhole = known !== null && wholeBytesOf(known.photo.facts) <= largestKeptBytes;
    const photo = await decodePhoto(path, { regionPx: isWhole ? null : regionPx });
    if (stamp === null || bytesOf(photo) > largestKeptBytes) return photo;
    const kept = { path, stamp, photo };
    photos.keep(kept);
    return partOfKept(kept, regionPx) ?? photo;
  };
}
