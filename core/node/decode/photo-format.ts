import { tiffRawName } from './tiff-raw';
import { jpegRefusal } from './jpeg-header';

/** A format that is read, or what to call the file that is not: 'a GIF picture'. */
export type PhotoFormat =
  { readonly format: 'jpeg' | 'png' | 'tiff' | 'webp' | 'avif' | 'heic' } | { readonly refused: string };

function startsWith(bytes: Uint8Array, sign: string, at = 0): boolean {
  if (bytes.length < at + sign.length) return false;
  for (let i = 0; i < sign.length; i++) if (bytes[at + i] !== sign.charCodeAt(i)) return false;
  return true;
}

/** Kinds that are known and not read, by how they begin. */
const refusedSigns: readonly (readonly [sign: string, what: string])[] = [
  ['GIF8', 'a GIF picture'],
  ['BM', 'a BMP picture'],
  ['%PDF', 'a PDF document'],
  ['8BPS', 'a layered picture of an editing program (PSD)'],
  ['\xff\x0a', 'a JPEG XL picture'],
  ['\0\0\0\x0cJXL ', 'a JPEG XL picture'],
  ['\0\0\0\x0cjP  ', 'a JPEG 2000 picture'],
  ['v/1\x01', 'an OpenEXR picture'],
  ['FUJIFILMCCD-RAW', 'a camera raw file'],
  ['IIRO', 'a camera raw file'],
  ['IIRS', 'a camera raw file'],
  ['MMOR', 'a camera raw file'],
  ['IIU\0', 'a camera raw file'],
  ['FOVb', 'a camera raw file'],
  ['\0MRM', 'a camera raw file'],
];

/** Brands of an ISO media file (the box 'ftyp'): the main one and the compatible ones. */
function brandsOf(bytes: Uint8Array): string[] {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const end = Math.min(view.getUint32(0), bytes.length, 400);
  const brands: string[] = [];
  for (let at = 8; at + 4 <= end; at += at === 8 ? 8 : 4)
    brands.push(String.fromCharCode(...bytes.subarray(at, at + 4)));
  return brands;
}

const heicBrands = ['heic', 'heix', 'heim', 'heis', 'mif1', 'miaf'];

function formatOfBrands(brands: readonly string[]): PhotoFormat {
  if (brands[0] === 'crx ') return { refused: 'a camera raw file' };
  if (brands.includes('avif')) return { format: 'avif' };
  if (heicBrands.some((brand) => brands.includes(brand))) return { format: 'heic' };
  return { refused: 'a film or a picture sequence' };
}

function looksLikeMarkup(bytes: Uint8Array): boolean {
  const head = String.fromCharCode(...bytes.subarray(0, 300));
  return /^(\xef\xbb\xbf)?\s*<(\?xml|svg|!doctype|html)/i.test(head);
}

/** Printable signs of any script from the first byte on: notes, a table, a program. No script's UTF-8 has the byte 255. */
function looksLikeText(bytes: Uint8Array): boolean {
  const head = bytes.subarray(0, 200);
  return (
    head.length > 0 && head.every((byte) => (byte >= 32 && byte < 255) || byte === 9 || byte === 10 || byte === 13)
  );
}

/**
 * Tells what a file is by its content, never by its name. Only what is on this short list of formats ever reaches
 * a decoder: a decoder library opens more (drawings that refer to other files, documents), and that is not wanted.
 *
 * @param bytes  the whole file; not altered
 * @source signs of the formats: ITU-T T.81, PNG (ISO/IEC 15948), TIFF 6.0, RFC 9649 (WebP), ISO/IEC 23008-12 (HEIF); those
 *   of raw files from memory
 * @rule PX7
 */
export function detectPhotoFormat(bytes: Uint8Array): PhotoFormat {
  if (startsWith(bytes, '\xff\xd8\xff')) {
    const refused = jpegRefusal(bytes);
    return refused ? { refused } : { format: 'jpeg' };
  }
  if (startsWith(bytes, '\x89PNG\r\n\x1a\n')) return { format: 'png' };
  if (startsWith(bytes, 'RIFF') && startsWith(bytes, 'WEBP', 8)) return { format: 'webp' };
  if (startsWith(bytes, 'ftyp', 4)) return formatOfBrands(brandsOf(bytes));
  if (startsWith(bytes, 'II*\0') || startsWith(bytes, 'MM\0*')) {
    const refused = tiffRawName(bytes);
    return refused ? { refused } : { format: 'tiff' };
  }
  if (startsWith(bytes, 'II+\0') || startsWith(bytes, 'MM\0+')) return { format: 'tiff' };
  const known = refusedSigns.find(([sign]) => startsWith(bytes, sign));
  if (known) return { refused: known[1] };
  if (looksLikeMarkup(bytes)) return { refused: 'a drawing or a web page (SVG, XML)' };
  return { refused: looksLikeText(bytes) ? 'not a picture (it begins like text)' : 'not a picture of a known kind' };
}
