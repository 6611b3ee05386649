// ICC profiles drawn byte by byte, so that a test knows what is in them.

export type TagData = Uint8Array;

function bytesOf(length: number, fill: (view: DataView, bytes: Uint8Array) => void): Uint8Array {
  const bytes = new Uint8Array(length);
  fill(new DataView(bytes.buffer), bytes);
  return bytes;
}

function putAscii(bytes: Uint8Array, at: number, text: string): void {
  for (let i = 0; i < text.length; i++) bytes[at + i] = text.charCodeAt(i);
}

export function xyzTag(xyz: readonly [number, number, number]): TagData {
  return bytesOf(20, (view, bytes) => {
    putAscii(bytes, 0, 'XYZ ');
    xyz.forEach((value, i) => view.setInt32(8 + 4 * i, Math.round(value * 65536)));
  });
}

/** 'curv' with these 16-bit entries: none = identity, one = a power times 256. */
export function curveTag(entries: readonly number[]): TagData {
  return bytesOf(12 + 2 * entries.length, (view, bytes) => {
    putAscii(bytes, 0, 'curv');
    view.setUint32(8, entries.length);
    entries.forEach((entry, i) => view.setUint16(12 + 2 * i, entry));
  });
}

export function parametricTag(kind: number, parameters: readonly number[]): TagData {
  return bytesOf(12 + 4 * parameters.length, (view, bytes) => {
    putAscii(bytes, 0, 'para');
    view.setUint16(8, kind);
    parameters.forEach((value, i) => view.setInt32(12 + 4 * i, Math.round(value * 65536)));
  });
}

export function descriptionTag(text: string): TagData {
  return bytesOf(12 + text.length + 1, (view, bytes) => {
    putAscii(bytes, 0, 'desc');
    view.setUint32(8, text.length + 1);
    putAscii(bytes, 12, text);
  });
}

export function manyLanguagesTag(text: string): TagData {
  return bytesOf(28 + 2 * text.length, (view, bytes) => {
    putAscii(bytes, 0, 'mluc');
    view.setUint32(8, 1);
    view.setUint32(12, 12);
    putAscii(bytes, 16, 'enUS');
    view.setUint32(20, 2 * text.length);
    view.setUint32(24, 28);
    for (let i = 0; i < text.length; i++) view.setUint16(28 + 2 * i, text.charCodeAt(i));
  });
}

/** A profile of this colour space, connection space XYZ, with these tags. */
export function drawProfile(space: string, tags: Readonly<Record<string, TagData>>): Uint8Array {
  const entries = Object.entries(tags);
  const head = 132 + 12 * entries.length;
  const total = entries.reduce((sum, [, data]) => sum + data.length, head);
  return bytesOf(total, (view, bytes) => {
    view.setUint32(0, total);
    putAscii(bytes, 16, space);
    putAscii(bytes, 20, 'XYZ ');
    putAscii(bytes, 36, 'acsp');
    view.setUint32(128, entries.length);
    let at = head;
    entries.forEach(([name, data], i) => {
      putAscii(bytes, 132 + 12 * i, name);
      view.setUint32(136 + 12 * i, at);
      view.setUint32(140 + 12 * i, data.length);
      bytes.set(data, at);
      at += data.length;
    });
  });
}

/** Colorants of Display P3, adapted to D50. @source SMPTE EG 432-1 primaries with D65, Bradford; computed by the test */
export function threeColourTags(
  colorants: readonly (readonly [number, number, number])[],
  curve: TagData,
  name = 'drawn',
): Record<string, TagData> {
  const [red, green, blue] = colorants;
  return {
    desc: descriptionTag(name),
    rXYZ: xyzTag(red),
    gXYZ: xyzTag(green),
    bXYZ: xyzTag(blue),
    rTRC: curve,
    gTRC: curve,
    bTRC: curve,
  };
}
