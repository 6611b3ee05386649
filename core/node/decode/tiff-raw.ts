const compression = 259;
const photometric = 262;
const subDirectories = 330;
const dngVersion = 50706;
/** Colour filter mosaic and linear raw. */
const rawPhotometrics = [32803, 34892];
/** Compressions that only raw files use. */
const rawCompressions = [32767, 32769, 32770, 34713];

interface Directory {
  readonly values: ReadonlyMap<number, readonly number[]>;
  readonly next: number;
}

/** The short and long entries of one directory; null where it lies outside the file. */
function readDirectory(view: DataView, at: number, little: boolean): Directory | null {
  if (at < 8 || at + 2 > view.byteLength) return null;
  const count = view.getUint16(at, little);
  const end = at + 2 + 12 * count;
  if (end + 4 > view.byteLength) return null;
  const values = new Map<number, readonly number[]>();
  for (let entry = at + 2; entry < end; entry += 12) {
    const type = view.getUint16(entry + 2, little);
    const size = type === 3 ? 2 : type === 4 || type === 13 ? 4 : 1;
    const howMany = Math.min(view.getUint32(entry + 4, little), 16);
    const inPlace = view.getUint32(entry + 4, little) * size <= 4;
    const from = inPlace ? entry + 8 : view.getUint32(entry + 8, little);
    if (from + howMany * size > view.byteLength) continue;
    const list = Array.from({ length: howMany }, (_, i) => {
      if (size === 2) return view.getUint16(from + 2 * i, little);
      return size === 4 ? view.getUint32(from + 4 * i, little) : view.getUint8(from + i);
    });
    values.set(view.getUint16(entry, little), list);
  }
  return { values, next: view.getUint32(end, little) };
}

function isRaw({ values }: Directory): boolean {
  if (values.has(dngVersion)) return true;
  const photometricOf = values.get(photometric)?.[0] ?? -1;
  return rawPhotometrics.includes(photometricOf) || rawCompressions.includes(values.get(compression)?.[0] ?? -1);
}

/**
 * Camera raw files of several makers are TIFF files whose first picture is a thumbnail: measuring that would be wrong.
 *
 * @param bytes  a file that begins as a TIFF does
 * @returns 'a camera raw file' when any of its directories says so, else null
 * @source TIFF 6.0, section 2; tags of raw files: DNG specification 1.4 and common practice (from memory)
 * @rule PX7
 */
export function tiffRawName(bytes: Uint8Array): string | null {
  const rawFile = 'a camera raw file';
  if (bytes.length < 16) return null;
  if (bytes[8] === 0x43 && bytes[9] === 0x52) return rawFile;
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const little = bytes[0] === 0x49;
  const waiting = [view.getUint32(4, little)];
  for (let seen = 0; waiting.length > 0 && seen < 20; seen++) {
    const directory = readDirectory(view, waiting.shift()!, little);
    if (!directory) continue;
    if (isRaw(directory)) return rawFile;
    waiting.push(directory.next, ...(directory.values.get(subDirectories) ?? []));
  }
  return null;
}
