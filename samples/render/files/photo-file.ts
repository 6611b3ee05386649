import { deflateSync } from 'node:zlib';
import sharp from 'sharp';
import type { Camera } from '../camera/settings';
import { crc32 } from './crc32';
import { exifBlock } from './exif';
import { profileOf } from './matrix-profile';
import { tiffFile } from './tiff';

type Codes = Uint8Array | Uint16Array;

interface Stored {
  readonly codes: Codes;
  readonly width: number;
  readonly height: number;
}

/** Pixels as a camera turned by its orientation stores them: 6 must be turned a quarter clockwise to stand upright. */
function storedPixels(upright: Codes, camera: Camera): Stored {
  const { widthPx, heightPx } = camera;
  if (camera.orientation === 1) return { codes: upright, width: widthPx, height: heightPx };
  const codes = upright instanceof Uint8Array ? new Uint8Array(upright.length) : new Uint16Array(upright.length);
  for (let y = 0; y < heightPx; y++) {
    for (let x = 0; x < widthPx; x++) {
      const to = 3 * ((widthPx - 1 - x) * heightPx + y);
      const from = 3 * (y * widthPx + x);
      for (let k = 0; k < 3; k++) codes[to + k] = upright[from + k];
    }
  }
  return { codes, width: heightPx, height: widthPx };
}

function jpegSegment(marker: number, body: Buffer): Buffer {
  const head = Buffer.from([0xff, marker, 0, 0]);
  head.writeUInt16BE(body.length + 2, 2);
  return Buffer.concat([head, body]);
}

function intoJpeg(jpeg: Buffer, camera: Camera): Buffer {
  const profile = profileOf(camera);
  const segments = [jpegSegment(0xe1, Buffer.concat([Buffer.from('Exif\0\0', 'latin1'), exifBlock(camera)]))];
  if (profile) {
    segments.push(jpegSegment(0xe2, Buffer.concat([Buffer.from('ICC_PROFILE\0\x01\x01', 'latin1'), profile])));
  }
  return Buffer.concat([jpeg.subarray(0, 2), ...segments, jpeg.subarray(2)]);
}

function pngChunk(type: string, body: Buffer): Buffer {
  const typed = Buffer.concat([Buffer.from(type, 'latin1'), body]);
  const frame = Buffer.alloc(8);
  frame.writeUInt32BE(body.length, 0);
  frame.writeUInt32BE(crc32(typed), 4);
  return Buffer.concat([frame.subarray(0, 4), typed, frame.subarray(4)]);
}

function intoPng(png: Buffer, camera: Camera): Buffer {
  const signatureAndHeader = 8 + 25;
  const profile = profileOf(camera);
  const chunks = [pngChunk('eXIf', exifBlock(camera))];
  if (profile) {
    chunks.unshift(pngChunk('iCCP', Buffer.concat([Buffer.from('sample\0\0', 'latin1'), deflateSync(profile)])));
  }
  return Buffer.concat([png.subarray(0, signatureAndHeader), ...chunks, png.subarray(signatureAndHeader)]);
}

/**
 * The bytes of the photo file. Profile and EXIF are put in by hand: the image library would convert the pixels to the
 * profile instead of only naming it.
 */
export async function photoBytes(upright: Codes, camera: Camera): Promise<Buffer> {
  const { file } = camera;
  const { codes, width, height } = storedPixels(upright, camera);
  if (file.kind === 'tiff') return tiffFile(codes, width, height, camera);
  const image = sharp(codes, { raw: { width, height, channels: 3 } });
  if (file.kind === 'png') {
    const space = file.bits === 16 ? 'rgb16' : 'srgb';
    const png = image.toColourspace(space).png({ compressionLevel: 9, adaptiveFiltering: true });
    return intoPng(await png.toBuffer(), camera);
  }
  const chromaSubsampling = file.fullColour ? '4:4:4' : '4:2:0';
  return intoJpeg(await image.jpeg({ quality: file.quality, chromaSubsampling }).toBuffer(), camera);
}
