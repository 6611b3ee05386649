import '../decode/wasm-only';
import { deflateSync } from 'node:zlib';
import { srgbFromLinear } from '../../colour/transfer';
import type { DecodedPhoto } from '../../photo/decoded-photo';
import { crc32 } from './crc32';
import { loadSharp } from '../decode/load-sharp';

/** A chunk of a PNG file. @source PNG (ISO/IEC 15948:2004) 5.3 */
function chunkOf(type: string, data: Uint8Array): Buffer {
  const body = Buffer.concat([Buffer.from(type, 'latin1'), data]);
  const [length, sum] = [Buffer.alloc(4), Buffer.alloc(4)];
  length.writeUInt32BE(data.length);
  sum.writeUInt32BE(crc32(body));
  return Buffer.concat([length, body, sum]);
}

/** Signature and header; a profile has to come after them and before the pixels. */
const headerEnd = 8 + 25;

/** A PNG with its colour profile. The encoder would convert the pixels to a profile that it is given. */
function withProfile(png: Buffer, icc: Uint8Array): Buffer {
  const data = Buffer.concat([Buffer.from('icc\0\0', 'latin1'), deflateSync(icc)]);
  return Buffer.concat([png.subarray(0, headerEnd), chunkOf('iCCP', data), png.subarray(headerEnd)]);
}

/** As cameras write it: one over a whole number where it is that, else in millionths. */
function fraction(value: number): string {
  const below = Math.round(1 / value);
  return Math.abs(value * below - 1) < 1e-9 ? `1/${below}` : `${Math.round(value * 1e6)}/1000000`;
}

/** Only what figures and checks are made from; nothing that tells of a person, a place, or which camera it was of its kind. */
function notesOf({ facts }: DecodedPhoto): { IFD0: Record<string, string>; IFD2: Record<string, string> } {
  const { make, model, exposureS, fNumber, iso, focalLengthMm, whiteBalance } = facts.camera;
  const { focalLength35Mm } = facts;
  const text = (key: string, value: string | undefined): Record<string, string> =>
    value === undefined ? {} : { [key]: value };
  const number = (key: string, value: number | undefined): Record<string, string> =>
    value === undefined ? {} : { [key]: fraction(value) };
  return {
    IFD0: { ...text('Make', make), ...text('Model', model) },
    IFD2: {
      ...number('ExposureTime', exposureS),
      ...number('FNumber', fNumber),
      ...text('ISOSpeedRatings', iso === undefined ? undefined : String(Math.round(iso))),
      ...number('FocalLength', focalLengthMm),
      ...text('FocalLengthIn35mmFilm', focalLength35Mm === undefined ? undefined : String(Math.round(focalLength35Mm))),
      ...text('WhiteBalance', whiteBalance === 'unknown' ? undefined : whiteBalance === 'auto' ? '0' : '1'),
      ...text('ColorSpace', facts.exifSaysSrgb ? '1' : undefined),
    },
  };
}

/** Codes of a photo; of one whose profile is not followed by codes (CMYK), its light as 16-bit sRGB, cut to 0..1. */
function codesOf({ codes, linear }: DecodedPhoto): Uint8Array | Uint16Array {
  if (linear === null) {
    if (codes === null) throw new Error('a decoded photo has neither codes nor light');
    return codes;
  }
  return Uint16Array.from(linear, (light) => Math.round(65535 * srgbFromLinear(Math.min(1, Math.max(0, light)))));
}

/**
 * A photo made again without personal data: the same pixels (upright) as PNG without loss, the colour profile, and of the
 * notes only exposure, lens, white balance and the camera's kind. Location, owner, serial numbers, dates, the maker's own
 * notes, thumbnails and comments are never copied, since nothing is copied that is not listed here.
 *
 * @rule BK26
 */
export async function sharedPhotoFile(photo: DecodedPhoto): Promise<Buffer> {
  const sharp = loadSharp();
  const { width, height } = photo.region;
  const codes = codesOf(photo);
  const raw = sharp(codes, { raw: { width, height, channels: 3 }, limitInputPixels: false });
  const deep = codes instanceof Uint16Array ? raw.toColourspace('rgb16') : raw;
  const png = await deep.withExif(notesOf(photo)).png({ compressionLevel: 6 }).toBuffer();
  return photo.icc && photo.linear === null ? withProfile(png, photo.icc) : png;
}
