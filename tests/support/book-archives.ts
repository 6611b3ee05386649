import { createHash } from 'node:crypto';
import { deflateRawSync } from 'node:zlib';
import { crc32 } from '../../core/node/book/crc32';

/** An entry as a zip file may hold it, true or not. */
export interface ZipEntry {
  readonly name: string;
  readonly data: Uint8Array | string;
  /** The upper half of the external attributes; 0o120777 is a symbolic link. */
  readonly mode?: number;
  readonly crc?: number;
  /** What the table of contents says of the length. */
  readonly saysBytes?: number;
  readonly flags?: number;
  readonly method?: number;
  /** Not in the file itself: the table of contents leads to the entry of this index. */
  readonly liesAt?: number;
}

const u16 = (...values: number[]): Buffer => Buffer.from(Uint16Array.from(values).buffer);
const u32 = (...values: number[]): Buffer => Buffer.from(Uint32Array.from(values).buffer);

/**
 * A zip file written by hand, so that it can lie.
 *
 * @source APPNOTE.TXT of the zip format, 4.3
 */
export function zipOf(entries: readonly ZipEntry[]): Buffer {
  const parts: Buffer[] = [];
  const starts: number[] = [];
  let at = 0;
  const table = entries.map((entry) => {
    const { name, data, flags = 0x800, method = 8 } = entry;
    const bytes = Buffer.from(data);
    const packed = deflateRawSync(bytes);
    const nameBytes = Buffer.from(name);
    const sums = u32(entry.crc ?? crc32(bytes), packed.length, entry.saysBytes ?? bytes.length);
    const common = Buffer.concat([u16(20, flags, method, 0, 33), sums, u16(nameBytes.length, 0)]);
    starts.push(at);
    if (entry.liesAt === undefined) {
      const local = Buffer.concat([u32(0x04034b50), common, nameBytes, packed]);
      parts.push(local);
      at += local.length;
    }
    const attributes = u32(((entry.mode ?? 0o100644) << 16) >>> 0);
    const start = starts[entry.liesAt ?? starts.length - 1];
    return Buffer.concat([u32(0x02014b50), u16(0x0314), common, u16(0, 0, 0), attributes, u32(start), nameBytes]);
  });
  const contents = Buffer.concat(table);
  const end = [u32(0x06054b50), u16(0, 0, table.length, table.length), u32(contents.length, at), u16(0)];
  return Buffer.concat([...parts, contents, ...end]);
}

export const sha256 = (data: Uint8Array | string): string => createHash('sha256').update(data).digest('hex');

/** A manifest that tells the truth about entries, but for what is changed. */
export function manifestOf(
  unit: string,
  entries: readonly { readonly name: string; readonly data: Uint8Array | string }[],
  changes: Readonly<Record<string, unknown>> = {},
): ZipEntry {
  const files = entries.map(({ name, data }) => ({ name, bytes: Buffer.from(data).length, sha256: sha256(data) }));
  const manifest = { format: 'evendial-archive', version: 1, unit, name: 'T-60', shared: false, files, ...changes };
  return { name: 'archive.json', data: JSON.stringify(manifest) };
}
