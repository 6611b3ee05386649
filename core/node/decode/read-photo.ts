import { webcrypto } from 'node:crypto';
import { readFile, stat } from 'node:fs/promises';
import path from 'node:path';
import { AppError } from '../../base/errors';
import type { DecodedPhoto, PixelRegion } from '../../photo/decoded-photo';
import { readPhotoNotes, type PhotoNotes } from '../../photo/metadata';
import { readColourProfile } from '../../photo/profile';
import { codedColourRefusal, readCodedColour } from './coded-colour';
import { lightThroughProfile, profileSpace } from './colour-engine';
import { decodeHeic } from './heic-pixels';
import {
  formatUnsupported,
  photoEmpty,
  photoMissing,
  photoTooEmpty,
  photoTooLarge,
  photoUnreadable,
} from './photo-errors';
import { detectPhotoFormat } from './photo-format';
import { mostPixelsAByte, type PhotoLimits } from './photo-limits';
import { decodeWithSharp, readSharpHeader, type StoredHeader } from './sharp-pixels';
import { systemWords } from '../system-words';
import { clampRegion, cutUpright, uprightSize, type StoredPixels } from './upright';

function unopened(file: string, error: unknown): Error {
  if (error instanceof AppError) return error;
  const code = (error as NodeJS.ErrnoException).code;
  if (code === 'ENOENT' || code === 'ENOTDIR') return photoMissing(file);
  if (code === 'EACCES' || code === 'EPERM') return photoUnreadable(file, 'no permission');
  if (code === 'EISDIR') return photoUnreadable(file, 'it is a folder');
  return error instanceof Error && code ? photoUnreadable(file, systemWords(error)) : (error as Error);
}

/** Only plain files are opened: opening a pipe waits for its other end, and a device never ends. */
async function readBytes(place: string, file: string, limitBytes: number): Promise<Uint8Array> {
  try {
    const facts = await stat(place);
    if (facts.isDirectory()) throw photoUnreadable(file, 'it is a folder');
    if (!facts.isFile()) throw photoUnreadable(file, 'it is no plain file');
    if (facts.size > limitBytes) throw photoTooLarge(file, bytesReason(facts.size, limitBytes));
    if (facts.size === 0) throw photoEmpty(file);
    return await readFile(place);
  } catch (error) {
    throw unopened(file, error);
  }
}

function bytesReason(size: number, limit: number): string {
  const mebibytes = (bytes: number): string => (bytes / 2 ** 20).toFixed(1);
  return `${mebibytes(size)} MiB, at most ${mebibytes(limit)} MiB are read`;
}

/**
 * Refuses what would cost too much to decode: too many pixels, or many in a file too small to hold a photo of them.
 *
 * @throws AppError PHOTO_TOO_LARGE, PHOTO_TOO_EMPTY
 * @rule PX9
 */
export function checkPixelCount(
  file: string,
  fileBytes: number,
  header: Pick<StoredHeader, 'width' | 'height' | 'wide'>,
  limits: Pick<PhotoLimits, 'pixels' | 'pixelsOnTrust'>,
): void {
  const { width, height, wide } = header;
  const cost = width * height * (wide ? 2 : 1);
  const size = `${width} x ${height} pixels`;
  if (cost > limits.pixels) {
    const allowed = `at most ${limits.pixels / 1e6} megapixels are decoded${wide ? ', half as many at 16 bits' : ''}`;
    throw photoTooLarge(file, `${size}, ${allowed}`);
  }
  if (cost > limits.pixelsOnTrust && width * height > mostPixelsAByte * fileBytes) {
    throw photoTooEmpty(file, `${size} in ${Math.ceil(fileBytes / 1024)} KiB`);
  }
}

/** A photo of more than 8 bits in a wider sample, as some formats hold it: back to codes of full scale 65535. */
function spread(pixels: StoredPixels, bitDepth: number): StoredPixels {
  if (!(pixels.samples instanceof Uint16Array) || bitDepth >= 16 || bitDepth <= 8) return pixels;
  const shift = 16 - bitDepth;
  const most = 2 ** bitDepth - 1;
  return { ...pixels, samples: pixels.samples.map((code) => Math.round(((code >> shift) * 65535) / most)) };
}

interface Opened {
  readonly header: StoredHeader;
  readonly pixels: StoredPixels;
  /** Left to do: 1 where the decoder has turned the photo itself. */
  readonly orientation: number;
}

async function openPhoto(
  file: string,
  bytes: Uint8Array,
  format: string,
  notes: PhotoNotes,
  limits: PhotoLimits,
): Promise<Opened> {
  const coded = format === 'heic' || format === 'avif' ? readCodedColour(bytes) : null;
  const check = (header: StoredHeader): void => {
    checkPixelCount(file, bytes.length, header, limits);
    const refused = codedColourRefusal(coded, header.icc !== null);
    if (refused) throw formatUnsupported(file, refused);
  };
  if (format === 'heic') return { ...(await decodeHeic(file, bytes, check)), orientation: 1 };
  const header = await readSharpHeader(file, bytes);
  check(header);
  const stored = await decodeWithSharp(file, bytes, header);
  const pixels = format === 'avif' ? spread(stored, header.bitDepth) : stored;
  // An AVIF is turned by its own boxes, which the decoder applies; its EXIF note is for information only.
  return { header, pixels, orientation: format === 'avif' ? 1 : notes.orientation };
}

const keptChannels = { grey: [0, 0, 0], rgb: [0, 1, 2], cmyk: [0, 1, 2, 3] } as const;

type Colours = Pick<DecodedPhoto, 'codes' | 'linear' | 'profileName'>;

/** CMYK has no light of its own: without a profile that can be followed, its inks could be anything. */
async function coloursOfInks(file: string, icc: Uint8Array | null, inks: Uint8Array | Uint16Array): Promise<Colours> {
  const profile = icc ? readColourProfile(icc) : null;
  const linear = icc && profile?.kind === 'cmyk' ? await lightThroughProfile(icc, inks, 'cmyk') : null;
  if (!linear) throw formatUnsupported(file, 'a CMYK picture without a profile that can be followed');
  return { codes: null, linear, profileName: profile?.kind === 'cmyk' ? profile.name : null };
}

/** Every third code: the grey that was repeated. */
function greyOf(codes: Uint8Array | Uint16Array): Uint8Array | Uint16Array {
  return codes.filter((_, i) => i % 3 === 0);
}

/**
 * Codes, and light too where the profile holds look-up tables. A profile that not even the colour engine can follow
 * leaves the codes, which then count as sRGB, assumed.
 */
async function coloursOf(header: StoredHeader, codes: Uint8Array | Uint16Array): Promise<Colours> {
  const profile = header.icc ? readColourProfile(header.icc) : null;
  if (!header.icc || profile?.kind !== 'lut') return { codes, linear: null, profileName: null };
  const space = profileSpace(header.icc);
  if (!space || (space === 'grey' && header.space === 'rgb')) return { codes, linear: null, profileName: null };
  const linear = await lightThroughProfile(header.icc, space === 'grey' ? greyOf(codes) : codes, space);
  return { codes, linear, profileName: linear ? profile.name : null };
}

/**
 * Reads a photo file: looks at its content, checks its size before decoding, decodes, turns it upright, cuts out the
 * region.
 *
 * @param place   path of the file
 * @param region  in the upright photo; cut to it; null: all of it
 * @throws AppError  kind photo, see photo-errors
 * @rule PX5, PX7, PX8, PX9
 */
export async function readPhoto(place: string, region: PixelRegion | null, limits: PhotoLimits): Promise<DecodedPhoto> {
  const started = performance.now();
  const file = path.basename(place);
  const bytes = await readBytes(place, file, limits.fileBytes);
  const kind = detectPhotoFormat(bytes);
  if ('refused' in kind) throw formatUnsupported(file, kind.refused);
  const notes = readPhotoNotes(bytes);
  // In a thread of its own, beside the decoding.
  const digest = webcrypto.subtle.digest('SHA-256', bytes);
  const { header, pixels, orientation } = await openPhoto(file, bytes, kind.format, notes, limits);
  const { width, height } = uprightSize(pixels.width, pixels.height, orientation);
  const cutRegion = clampRegion(region, width, height);
  const cut = cutUpright(pixels, cutRegion, orientation, keptChannels[header.space]);
  return {
    facts: {
      sha256: Buffer.from(await digest).toString('hex'),
      widthPx: width,
      heightPx: height,
      bitDepth: header.bitDepth,
      format: kind.format,
      camera: notes.camera,
      ...(notes.focalLength35Mm === undefined ? {} : { focalLength35Mm: notes.focalLength35Mm }),
      ...(notes.pictureStyle === undefined ? {} : { pictureStyle: notes.pictureStyle }),
      exifSaysSrgb: notes.exifSaysSrgb,
      toneMappingHints: notes.toneMappingHints,
    },
    region: cutRegion,
    ...(await (header.space === 'cmyk' ? coloursOfInks(file, header.icc, cut) : coloursOf(header, cut))),
    icc: header.icc,
    decodeMs: performance.now() - started,
  };
}
