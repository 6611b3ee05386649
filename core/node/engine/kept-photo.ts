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

/** A photo of 24 megapixels in 8 bits, or of 12 in 16. */
const mostKeptBytes = 80 * 2 ** 20;

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

/**
 * A decoder that remembers the photo it decoded last: while a corner is moved, or one photo is shown and measured, the same
 * file is asked for again and again. Asked for another part, it has the whole photo decoded, unless that is a large one. A
 * file that has changed meanwhile is decoded anew.
 *
 * @rule BE14
 */
export function keepingLastPhoto(decodePhoto: DecodePhoto): DecodePhoto {
  let kept: KeptPhoto | null = null;
  return async (path, { regionPx }) => {
    const started = performance.now();
    const stamp = await stampOf(path);
    const known = kept !== null && kept.path === path && kept.stamp === stamp ? kept : null;
    const part = known && partOfKept(known, regionPx);
    if (part) return { ...part, decodeMs: performance.now() - started };
    const isWhole = known !== null && wholeBytesOf(known.photo.facts) <= mostKeptBytes;
    const photo = await decodePhoto(path, { regionPx: isWhole ? null : regionPx });
    if (stamp === null || bytesOf(photo) > mostKeptBytes) return photo;
    kept = { path, stamp, photo };
    return partOfKept(kept, regionPx) ?? photo;
  };
}
