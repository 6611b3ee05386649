// Just enough TIFF/EXIF writing (Exif 2.32) for a camera's settings: little-endian, one main folder and one Exif folder.
import type { Camera } from '../camera/settings';

/** One entry of a TIFF folder. Types: 2 text, 3 short, 4 long, 5 rational, 7 bytes. */
export interface TiffEntry {
  readonly tag: number;
  readonly type: 2 | 3 | 4 | 5 | 7;
  readonly values: readonly number[] | string | Buffer;
}

function payload(entry: TiffEntry): { bytes: Buffer; count: number } {
  const { type, values } = entry;
  if (typeof values === 'string') {
    const bytes = Buffer.from(`${values}\0`, 'latin1');
    return { bytes, count: type === 7 ? values.length : bytes.length };
  }
  if (Buffer.isBuffer(values)) return { bytes: values, count: values.length };
  const size = type === 3 ? 2 : 4;
  const bytes = Buffer.alloc(size * values.length);
  values.forEach((value, i) => (type === 3 ? bytes.writeUInt16LE(value, 2 * i) : bytes.writeUInt32LE(value, 4 * i)));
  return { bytes, count: type === 5 ? values.length / 2 : values.length };
}

/** A folder that will stand at `offset` in the file, followed by its long values. */
export function tiffFolder(entries: readonly TiffEntry[], offset: number): Buffer {
  const sorted = [...entries].sort((a, b) => a.tag - b.tag);
  const table = Buffer.alloc(2 + 12 * sorted.length + 4);
  table.writeUInt16LE(sorted.length, 0);
  const long: Buffer[] = [];
  let next = offset + table.length;
  sorted.forEach((entry, i) => {
    const { bytes, count } = payload(entry);
    const at = 2 + 12 * i;
    table.writeUInt16LE(entry.tag, at);
    table.writeUInt16LE(entry.type, at + 2);
    table.writeUInt32LE(count, at + 4);
    if (bytes.length <= 4) {
      bytes.copy(table, at + 8);
    } else {
      const padded = bytes.length % 2 ? Buffer.concat([bytes, Buffer.alloc(1)]) : bytes;
      table.writeUInt32LE(next, at + 8);
      long.push(padded);
      next += padded.length;
    }
  });
  return Buffer.concat([table, ...long]);
}

function rational(value: number): number[] {
  if (value > 0 && value < 1 && Math.abs(1 / value - Math.round(1 / value)) < 1e-6) return [1, Math.round(1 / value)];
  return [Math.round(value * 1000), 1000];
}

/** The invented maker's two models: an everyday camera and a measuring one. */
export function mainEntries(camera: Camera): TiffEntry[] {
  return [
    { tag: 0x010f, type: 2, values: 'Brindle' },
    { tag: 0x0110, type: 2, values: camera.colour === 'colorimetric' ? 'Q2 Measure' : 'Q2' },
    { tag: 0x0112, type: 3, values: [camera.orientation] },
  ];
}

export function exifEntries(camera: Camera): TiffEntry[] {
  const named = camera.colourSpace === 'srgb' && camera.response.kind !== 'linear';
  return [
    { tag: 0x829a, type: 5, values: rational(camera.exposureS) },
    { tag: 0x829d, type: 5, values: rational(camera.fNumber) },
    { tag: 0x8827, type: 3, values: [camera.iso] },
    { tag: 0x9000, type: 7, values: '0232' },
    { tag: 0x9003, type: 2, values: camera.takenAt },
    { tag: 0x920a, type: 5, values: rational(camera.focalLength35Mm / 1.5) },
    { tag: 0xa001, type: 3, values: [named ? 1 : 65535] },
    { tag: 0xa402, type: 3, values: [1] },
    { tag: 0xa403, type: 3, values: [1] },
    { tag: 0xa405, type: 3, values: [camera.focalLength35Mm] },
  ];
}

/** A whole EXIF block as it stands in JPEG (after "Exif\0\0") and PNG. */
export function exifBlock(camera: Camera): Buffer {
  const head = Buffer.from([0x49, 0x49, 42, 0, 8, 0, 0, 0]);
  const withPointer = (offset: number) =>
    tiffFolder([...mainEntries(camera), { tag: 0x8769, type: 4, values: [offset] }], 8);
  const exifAt = 8 + withPointer(0).length;
  return Buffer.concat([head, withPointer(exifAt), tiffFolder(exifEntries(camera), exifAt)]);
}
