/** Remainders of each byte, polynomial EDB88320 (reflected). */
const table = Uint32Array.from({ length: 256 }, (_, byte) => {
  let rest = byte;
  for (let bit = 0; bit < 8; bit++) rest = rest & 1 ? (rest >>> 1) ^ 0xedb88320 : rest >>> 1;
  return rest >>> 0;
});

/**
 * Checksum of zip entries and PNG chunks. Node's own came with 20.15; the window's runtime may be older.
 *
 * @param from  checksum of the bytes before; 0 at the beginning
 * @source ISO 3309; PNG (ISO/IEC 15948:2004) annex D
 */
export function crc32(bytes: Uint8Array, from = 0): number {
  let rest = ~from;
  for (const byte of bytes) rest = table[(rest ^ byte) & 255] ^ (rest >>> 8);
  return ~rest >>> 0;
}
