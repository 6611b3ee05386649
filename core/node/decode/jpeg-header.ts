/** Markers that begin a frame: SOF0..SOF15 without the tables DHT, JPG and DAC that share the range. */
function isFrame(marker: number): boolean {
  return marker >= 0xc0 && marker <= 0xcf && marker !== 0xc4 && marker !== 0xc8 && marker !== 0xcc;
}

const processNames: Readonly<Record<number, string>> = {
  0xc3: 'a lossless JPEG',
  0xc9: 'a JPEG with arithmetic coding',
};

/**
 * Why a JPEG is not read, or null: the decoder takes Huffman-coded baseline and progressive frames of 8 bits only.
 * A header that cannot be followed gives null: the decoder will say what is wrong with it.
 *
 * @source ITU-T T.81 (09/92), Annex B (from memory)
 */
export function jpegRefusal(bytes: Uint8Array): string | null {
  for (let at = 2; at + 9 < bytes.length && bytes[at] === 0xff;) {
    const marker = bytes[at + 1];
    if (marker === 0xff) {
      at++;
      continue;
    }
    if (isFrame(marker)) {
      const bits = bytes[at + 4];
      if (bits !== 8) return `a ${bits}-bit JPEG`;
      return marker <= 0xc2 ? null : (processNames[marker] ?? 'a JPEG of a rare kind');
    }
    if (marker === 0xd9 || marker === 0xda) return null;
    at += 2 + (bytes[at + 2] << 8) + bytes[at + 3];
  }
  return null;
}
