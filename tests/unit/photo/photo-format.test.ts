import { describe, expect, it } from 'vitest';
import { codedColourRefusal, readCodedColour } from '../../../core/node/decode/coded-colour';
import { jpegRefusal } from '../../../core/node/decode/jpeg-header';
import { formatUnsupported, photoDamaged } from '../../../core/node/decode/photo-errors';
import { detectPhotoFormat } from '../../../core/node/decode/photo-format';

const latin = (text: string): Uint8Array => Uint8Array.from(text, (sign) => sign.charCodeAt(0));
const padded = (text: string): Uint8Array => latin(text.padEnd(64, '\0'));

/** A file type box with these brands, the main one first. */
function brandsBox(...brands: string[]): Uint8Array {
  const [main, ...others] = brands;
  return padded(`\0\0\0${String.fromCharCode(16 + 4 * others.length)}ftyp${main}\0\0\0\0${others.join('')}`);
}

/** A TIFF whose directories follow each other; entries of tag and value, type long. */
function tiff(little: boolean, ...directories: readonly (readonly [tag: number, value: number])[][]): Uint8Array {
  const bytes = new Uint8Array(400);
  const view = new DataView(bytes.buffer);
  bytes.set(latin(little ? 'II*\0' : 'MM\0*'));
  view.setUint32(4, 8, little);
  let at = 8;
  directories.forEach((entries, i) => {
    view.setUint16(at, entries.length, little);
    entries.forEach(([tag, value], j) => {
      const entry = at + 2 + 12 * j;
      view.setUint16(entry, tag, little);
      view.setUint16(entry + 2, 4, little);
      view.setUint32(entry + 4, 1, little);
      view.setUint32(entry + 8, value, little);
    });
    const end = at + 2 + 12 * entries.length;
    view.setUint32(end, i + 1 < directories.length ? end + 4 : 0, little);
    at = end + 4;
  });
  return bytes;
}

describe('detectPhotoFormat', () => {
  it.each([
    ['png', latin('\x89PNG\r\n\x1a\n...')],
    ['webp', latin('RIFF\x10\0\0\0WEBPVP8 ')],
    ['avif', brandsBox('avif', 'mif1')],
    ['avif', brandsBox('mif1', 'avif')],
    ['heic', brandsBox('heic', 'mif1')],
    ['heic', brandsBox('mif1', 'heix')],
    ['tiff', tiff(true, [[262, 2]])],
    ['tiff', tiff(false, [[262, 1]], [[262, 6]])],
    ['jpeg', latin('\xff\xd8\xff\xe0\0\x04ab\xff\xc0\0\x0b\x08\0\x05\0\x07\x01\0\0\0')],
  ])('[PX7] %s is told by its content', (format, bytes) => {
    expect(detectPhotoFormat(bytes)).toEqual({ format });
  });

  it.each([
    ['GIF', padded('GIF89a')],
    ['BMP', padded('BM')],
    ['PDF', padded('%PDF-1.7')],
    ['JPEG XL', padded('\xff\x0a')],
    ['JPEG XL', padded('\0\0\0\x0cJXL \r\n\x87\n')],
    ['raw', padded('FUJIFILMCCD-RAW 0201')],
    ['raw', padded('IIRO\x08\0\0\0')],
    ['raw', brandsBox('crx ', 'isom')],
    ['raw', tiff(true, [[50706, 0x401]])],
    ['raw', tiff(false, [[262, 32803]])],
    ['raw', tiff(true, [[262, 2]], [[262, 34892]])],
    ['raw', tiff(true, [[262, 2]], [[259, 34713]])],
    ['film', brandsBox('isom', 'mp42')],
    ['SVG', padded('\xef\xbb\xbf<?xml version="1.0"?><svg/>')],
    ['SVG', padded('  <svg xmlns="a">')],
    ['12-bit JPEG', latin('\xff\xd8\xff\xc1\0\x0b\x0c\0\x05\0\x07\x01\0\0\0')],
    ['begins like text', latin('plain words, and caf\xc3\xa9\r\n')],
    ['not a picture of a known kind', padded('plain words')],
    ['not a picture of a known kind', latin('')],
  ])('[PX7] a file of kind %s is refused by that name', (name, bytes) => {
    const kind = detectPhotoFormat(bytes);
    expect('refused' in kind && kind.refused).toContain(name);
  });

  it('[PX7] a cut or looping TIFF directory does not keep it', () => {
    const looping = tiff(true, [[262, 2]]);
    new DataView(looping.buffer).setUint32(8 + 2 + 12, 8, true);
    expect(detectPhotoFormat(looping)).toEqual({ format: 'tiff' });
    const raw = tiff(true, [[262, 2]], [[50706, 1]]);
    for (let length = 8; length < raw.length; length++) {
      expect(Object.keys(detectPhotoFormat(raw.slice(0, length)))[0]).toMatch(/format|refused/);
    }
  });
});

describe('what a person reads', () => {
  it('[PX7] a text is no picture, and a camera raw file is one that is not read', () => {
    const text = formatUnsupported('readme.jpg', 'not a picture (it begins like text)');
    expect([text.message, text.remedy]).toEqual([
      'readme.jpg is not a picture (it begins like text).',
      'Did you name the right file?',
    ]);
    expect(formatUnsupported('a.cr3', 'a camera raw file').message).toBe(
      'a.cr3 is a camera raw file, which is not read.',
    );
  });

  it.each([
    ['VipsJpeg: premature end of JPEG image', 'it ends too early, as a half-copied file does'],
    ['pngload_buffer: libspng read error', 'it cannot be decoded'],
    ['VipsJpeg: Bad Huffman code', 'its content is not what its format asks for'],
    ['it has no size', 'it has no size'],
  ])('[PX7] a damaged photo is not told by %j', (said, read) => {
    expect(photoDamaged('a.jpg', said).message).toBe(`a.jpg is damaged: ${read}.`);
  });
});

describe('jpegRefusal', () => {
  const frame = (marker: number, bits: number): Uint8Array =>
    Uint8Array.of(0xff, 0xd8, 0xff, 0xe0, 0, 4, 1, 2, 0xff, 0xff, marker, 0, 11, bits, 0, 5, 0, 7, 1, 0, 0, 0);

  it('[PX7] baseline and progressive frames of 8 bits pass; others are named', () => {
    for (const marker of [0xc0, 0xc1, 0xc2]) expect(jpegRefusal(frame(marker, 8))).toBeNull();
    expect(jpegRefusal(frame(0xc1, 12))).toBe('a 12-bit JPEG');
    expect(jpegRefusal(frame(0xc3, 8))).toContain('lossless');
    expect(jpegRefusal(frame(0xc9, 8))).toContain('arithmetic');
    // A table of Huffman codes shares the range of numbers, and is no frame.
    expect(jpegRefusal(frame(0xc4, 12))).toBeNull();
  });
});

describe('coded colour', () => {
  const metaWith = (primaries: number, transfer: number): Uint8Array => {
    const colour = `\0\0\0\x13colrnclx\0${String.fromCharCode(primaries)}\0${String.fromCharCode(transfer)}\0\x06\x80`;
    const meta = `\0\0\0${String.fromCharCode(12 + colour.length)}meta\0\0\0\0${colour}`;
    return latin(`\0\0\0\x10ftypavif\0\0\0\0${meta}`);
  };

  it('[PX7] high dynamic range and unprofiled wide gamut are refused, sRGB is not', () => {
    expect(readCodedColour(metaWith(9, 16))).toEqual({ primaries: 9, transfer: 16 });
    expect(codedColourRefusal(readCodedColour(metaWith(9, 16)), true)).toContain('HDR');
    expect(codedColourRefusal(readCodedColour(metaWith(1, 18)), false)).toContain('HDR');
    expect(codedColourRefusal(readCodedColour(metaWith(12, 13)), false)).toContain('wide');
    expect(codedColourRefusal(readCodedColour(metaWith(12, 13)), true)).toBeNull();
    expect(codedColourRefusal(readCodedColour(metaWith(1, 13)), false)).toBeNull();
  });

  it('[PX7] cut or nonsense boxes count as no coded colour', () => {
    const whole = metaWith(9, 16);
    for (let length = 0; length < whole.length - 3; length++) {
      const found = readCodedColour(whole.slice(0, length));
      expect(found === null || found.primaries === 9).toBe(true);
    }
    expect(readCodedColour(latin('\0\0\0\x04abcd\0\0\0\0\0\0\0\0'))).toBeNull();
  });
});
