import { deflateSync } from 'node:zlib';
import type { Camera } from '../camera/settings';
import { exifEntries, mainEntries, type TiffEntry, tiffFolder } from './exif';
import { profileOf } from './matrix-profile';

/** Differences to the pixel on the left (TIFF predictor 2), which deflate packs far better. */
function differences(codes: Uint16Array | Uint8Array, width: number): Buffer {
  const is16 = codes instanceof Uint16Array;
  const bytes = Buffer.alloc(codes.length * (is16 ? 2 : 1));
  const rowLength = 3 * width;
  for (let i = 0; i < codes.length; i++) {
    const left = i % rowLength >= 3 ? codes[i - 3] : 0;
    if (is16) bytes.writeUInt16LE((codes[i] - left) & 0xffff, 2 * i);
    else bytes[i] = (codes[i] - left) & 0xff;
  }
  return bytes;
}

/** A little-endian RGB TIFF in one deflated strip, with profile and EXIF folder. */
export function tiffFile(codes: Uint16Array | Uint8Array, width: number, height: number, camera: Camera): Buffer {
  const strip = deflateSync(differences(codes, width), { level: 9 });
  const padded = strip.length % 2 ? Buffer.concat([strip, Buffer.alloc(1)]) : strip;
  const bits = codes instanceof Uint16Array ? 16 : 8;
  const profile = profileOf(camera);
  const exifAt = 8 + padded.length;
  const exif = tiffFolder(exifEntries(camera), exifAt);
  const entries: TiffEntry[] = [
    { tag: 256, type: 4, values: [width] },
    { tag: 257, type: 4, values: [height] },
    { tag: 258, type: 3, values: [bits, bits, bits] },
    { tag: 259, type: 3, values: [8] },
    { tag: 262, type: 3, values: [2] },
    { tag: 273, type: 4, values: [8] },
    { tag: 277, type: 3, values: [3] },
    { tag: 278, type: 4, values: [height] },
    { tag: 279, type: 4, values: [strip.length] },
    { tag: 284, type: 3, values: [1] },
    { tag: 317, type: 3, values: [2] },
    ...mainEntries(camera),
    { tag: 0x8769, type: 4, values: [exifAt] },
    ...(profile ? [{ tag: 34675, type: 7 as const, values: profile }] : []),
  ];
  const head = Buffer.from([0x49, 0x49, 42, 0, 0, 0, 0, 0]);
  const mainAt = exifAt + exif.length;
  head.writeUInt32LE(mainAt, 4);
  return Buffer.concat([head, padded, exif, tiffFolder(entries, mainAt)]);
}
