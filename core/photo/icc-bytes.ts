/**
 * Big-endian reading of ICC bytes. Reading outside the bytes gives NaN (numbers) or '' (text), which no check accepts,
 * so that a damaged profile is found out by the caller instead of stopping the program.
 */
export class IccBytes {
  private readonly view: DataView;

  constructor(private readonly bytes: Uint8Array) {
    this.view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  }

  get length(): number {
    return this.bytes.length;
  }

  holds(offset: number, length: number): boolean {
    return offset >= 0 && length >= 0 && offset + length <= this.bytes.length;
  }

  u8(offset: number): number {
    return this.holds(offset, 1) ? this.bytes[offset] : NaN;
  }

  u16(offset: number): number {
    return this.holds(offset, 2) ? this.view.getUint16(offset) : NaN;
  }

  u32(offset: number): number {
    return this.holds(offset, 4) ? this.view.getUint32(offset) : NaN;
  }

  /** s15Fixed16Number. @source ICC.1:2022, 4.6 */
  s15Fixed16(offset: number): number {
    return this.holds(offset, 4) ? this.view.getInt32(offset) / 65536 : NaN;
  }

  /** Bytes as signs of 7 bits, up to the first zero. */
  ascii(offset: number, length: number): string {
    if (!this.holds(offset, length)) return '';
    let text = '';
    for (let i = 0; i < length && this.bytes[offset + i] !== 0; i++) {
      text += String.fromCharCode(this.bytes[offset + i] & 127);
    }
    return text;
  }

  /** UTF-16, big-endian, `length` bytes. */
  utf16(offset: number, length: number): string {
    if (!this.holds(offset, length)) return '';
    let text = '';
    for (let i = 0; i + 1 < length; i += 2) text += String.fromCharCode(this.view.getUint16(offset + i));
    return text.replace(/\0.*$/s, '');
  }
}
