// Files that want to cost time or memory, or to lead a reader in circles; drawn byte by byte.
import { crc32, deflateSync } from 'node:zlib';

export function pngChunk(name: string, data: Uint8Array): Buffer {
  const body = Buffer.concat([Buffer.from(name, 'latin1'), data]);
  const chunk = Buffer.alloc(body.length + 8);
  chunk.writeUInt32BE(data.length, 0);
  body.copy(chunk, 4);
  chunk.writeUInt32BE(crc32(body), body.length + 4);
  return chunk;
}

/** A grey PNG of this size and depth; `compressed` stands where its pixels should, `more` before them. */
export function greyPng(size: number, depth: 1 | 8, compressed: Uint8Array, more: readonly Buffer[] = []): Buffer {
  const header = Buffer.alloc(13);
  header.writeUInt32BE(size, 0);
  header.writeUInt32BE(size, 4);
  header[8] = depth;
  const sign = Buffer.from('\x89PNG\r\n\x1a\n', 'latin1');
  return Buffer.concat([
    sign,
    pngChunk('IHDR', header),
    ...more,
    pngChunk('IDAT', compressed),
    pngChunk('IEND', Buffer.alloc(0)),
  ]);
}

const smallPixels = deflateSync(Buffer.alloc(40 * 41, 120));
const text = (name: string, head: string, data: Uint8Array): Buffer =>
  pngChunk(name, Buffer.concat([Buffer.from(head, 'latin1'), data]));

/** A JPEG with XMP packets in front, each 60 KiB of elements that are opened and never closed. */
function jpegOfPackets(jpeg: Buffer, packets: number): Buffer {
  const segment = Buffer.alloc(60_002, ' ');
  segment.set([0xff, 0xe1]);
  segment.writeUInt16BE(60_000, 2);
  segment.write(`http://ns.adobe.com/xap/1.0/\0<x:xmpmeta>${'<a>'.repeat(19_000)}`, 4, 'latin1');
  return Buffer.concat([jpeg.subarray(0, 2), ...Array<Buffer>(packets).fill(segment), jpeg.subarray(2)]);
}

/** A progressive JPEG whose last scan comes a few hundred times more. */
function jpegOfScans(jpeg: Buffer, scans: number): Buffer {
  const scan = jpeg.subarray(jpeg.lastIndexOf(Buffer.of(0xff, 0xda)), jpeg.length - 2);
  return Buffer.concat([jpeg.subarray(0, -2), ...Array<Buffer>(scans).fill(scan), jpeg.subarray(-2)]);
}

/** Little-endian; the directory stands where the header says. */
function directoryOf(tiff: Buffer): { at: number; bytes: number } {
  const at = tiff.readUInt32LE(4);
  return { at, bytes: 2 + 12 * tiff.readUInt16LE(at) + 4 };
}

/** A TIFF whose first directory names itself as the next. */
function tiffInCircles(tiff: Buffer): Buffer {
  const { at, bytes } = directoryOf(tiff);
  const copy = Buffer.from(tiff);
  copy.writeUInt32LE(at, at + bytes - 4);
  return copy;
}

/** A TIFF of this many pages more, all of the same pixels. */
function tiffOfPages(tiff: Buffer, pages: number): Buffer {
  const { at, bytes } = directoryOf(tiff);
  const chain = Buffer.alloc(pages * bytes);
  for (let page = 0; page < pages; page++) {
    tiff.copy(chain, page * bytes, at, at + bytes);
    chain.writeUInt32LE(page + 1 < pages ? tiff.length + (page + 1) * bytes : 0, (page + 1) * bytes - 4);
  }
  const first = Buffer.from(tiff);
  first.writeUInt32LE(tiff.length, at + bytes - 4);
  return Buffer.concat([first, chain]);
}

/** A TIFF directory of 20 000 entries, each of four thousand million values. */
function tiffOfEntries(): Buffer {
  const tiff = Buffer.alloc(300_000);
  tiff.write('II*\0\x08\0\0\0', 'latin1');
  tiff.writeUInt16LE(20_000, 8);
  for (let entry = 0; entry < 20_000; entry++) {
    const at = 10 + 12 * entry;
    tiff.writeUInt16LE(256 + entry, at);
    tiff.writeUInt16LE(4, at + 2);
    tiff.writeUInt32LE(0xffffffff, at + 4);
    tiff.writeUInt32LE(8, at + 8);
  }
  return tiff;
}

/** What the hostile files are made from: small good ones. */
export interface GoodFiles {
  readonly jpeg: Buffer;
  readonly progressive: Buffer;
  /** Little-endian, without compression. */
  readonly tiff: Buffer;
}

/** Files by what is wrong with them, and what has to become of each: 'read', or the code of the refusal. */
export function hostileFiles({ jpeg, progressive, tiff }: GoodFiles): readonly (readonly [string, Buffer, string])[] {
  const manyZeros = deflateSync(Buffer.alloc(100e6), { level: 9 });
  return [
    ['8000 x 8000 pixels in 8 KB.png', greyPng(8000, 1, deflateSync(Buffer.alloc(8000 * 1001))), 'PHOTO_TOO_EMPTY'],
    ['60000 x 60000 pixels.png', greyPng(60_000, 8, smallPixels), 'PHOTO_TOO_LARGE'],
    ['more pixels than it says.png', greyPng(40, 8, manyZeros), 'read'],
    ['fewer pixels than it says.png', greyPng(400, 8, smallPixels), 'PHOTO_DAMAGED'],
    ['a profile of 100 MB.png', greyPng(40, 8, smallPixels, [text('iCCP', 'p\0\0', manyZeros)]), 'PHOTO_DAMAGED'],
    ['a text of 100 MB.png', greyPng(40, 8, smallPixels, [text('zTXt', 'Comment\0\0', manyZeros)]), 'PHOTO_DAMAGED'],
    [
      '50000 chunks.png',
      greyPng(40, 8, smallPixels, Array<Buffer>(5e4).fill(text('tEXt', 'a\0b', Buffer.alloc(0)))),
      'PHOTO_DAMAGED',
    ],
    ['300 packets of XMP.jpg', jpegOfPackets(jpeg, 300), 'read'],
    ['400 scans.jpg', jpegOfScans(progressive, 400), 'PHOTO_DAMAGED'],
    ['half.jpg', jpeg.subarray(0, jpeg.length / 2), 'PHOTO_DAMAGED'],
    ['in circles.tif', tiffInCircles(tiff), 'PHOTO_DAMAGED'],
    ['10000 pages.tif', tiffOfPages(tiff, 10_000), 'read'],
    ['20000 entries.tif', tiffOfEntries(), 'PHOTO_DAMAGED'],
    ['only the byte 255.jpg', Buffer.alloc(5000, 255), 'PHOTO_FORMAT_UNSUPPORTED'],
    ['only zeros.jpg', Buffer.alloc(5000), 'PHOTO_FORMAT_UNSUPPORTED'],
  ];
}

/** 24 x 16 pixels of a colour ramp, made with heif-enc: nothing that we use writes HEIC. */
export const smallHeic = Buffer.from(
  'AAAAHGZ0eXBoZWljAAAAAG1pZjFoZWljbWlhZgAAAa1tZXRhAAAAAAAAACFoZGxyAAAAAAAAAABwaWN0AAAAAAAAAAAAAAAAAAAAAA5waXRtAAAAAAACAAAAEGlkYXQAAAAAABgAEAAAADhpbG9jAQAAAERAAAIAAQAAAAAAAAHRAAEAAAAAAAAAXAACAAEAAAAAAAAAAQAAAAAAAAAIAAAAOGlpbmYAAAAAAAIAAAAVaW5mZQIAAAEAAQAAaHZjMQAAAAAVaW5mZQIAAAAAAgAAZ3JpZAAAAADYaXBycAAAALZpcGNvAAAAdmh2Y0MBA3AAAAAAAAAAAAAe8AD8/fj4AAAPAyAAAQAYQAEMAf//A3AAAAMAkAAAAwAAAwAeugJAIQABACpCAQEDcAAAAwCQAAADAAADAB6gIIEFluqumubgQEDAgAAAAwCAAAADAIQiAAEABkQBwXPBiQAAABRpc3BlAAAAAAAAAEAAAABAAAAAFGlzcGUAAAAAAAAAGAAAABAAAAAQcGl4aQAAAAADCAgIAAAAGmlwbWEAAAAAAAAAAgABAoECAAICA4QAAAAaaXJlZgAAAAAAAAAOZGltZwACAAEAAQAAAGRtZGF0AAAAWCgBrwnIaxEqPkun/jW8N7Xt88HDRyl8unWj6AH8Z0kDu8+LC0ByAU1pxT+u/R8Oxcxv6rs6/f5DNbrnuaXV1d/xrcO47O+gzOPbJ5S0J+1Y7aii5poRZaw=',
  'base64',
);
