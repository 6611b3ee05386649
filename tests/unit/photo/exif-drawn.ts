// EXIF notes drawn byte by byte: a TIFF structure, little-endian, in a JPEG's first application segment.

/** A note: its tag number, and what it holds. */
export type DrawnNote =
  | { readonly tag: number; readonly short: number }
  | { readonly tag: number; readonly text: string }
  | { readonly tag: number; readonly rational: readonly [number, number] };

const type = { text: 2, short: 3, long: 4, rational: 5 };

/** One directory at `start`: entries, then the values that do not fit into four bytes. */
function drawDirectory(view: DataView, start: number, notes: readonly DrawnNote[]): number {
  view.setUint16(start, notes.length, true);
  let values = start + 2 + 12 * notes.length + 4;
  notes.forEach((note, i) => {
    const at = start + 2 + 12 * i;
    view.setUint16(at, note.tag, true);
    if ('short' in note) {
      const isLong = note.tag === 0x8769;
      view.setUint16(at + 2, isLong ? type.long : type.short, true);
      view.setUint32(at + 4, 1, true);
      view.setUint32(at + 8, note.short, true);
    } else if ('rational' in note) {
      view.setUint16(at + 2, type.rational, true);
      view.setUint32(at + 4, 1, true);
      view.setUint32(at + 8, values, true);
      note.rational.forEach((part, j) => view.setUint32(values + 4 * j, part, true));
      values += 8;
    } else {
      const text = `${note.text}\0`;
      view.setUint16(at + 2, type.text, true);
      view.setUint32(at + 4, text.length, true);
      const from = text.length <= 4 ? at + 8 : values;
      for (let j = 0; j < text.length; j++) view.setUint8(from + j, text.charCodeAt(j));
      if (text.length > 4) {
        view.setUint32(at + 8, values, true);
        values += text.length;
      }
    }
  });
  return values;
}

/** The EXIF block (a TIFF structure) of notes of the picture and of the camera. */
export function drawExif(picture: readonly DrawnNote[], camera: readonly DrawnNote[]): Uint8Array {
  const bytes = new Uint8Array(70_000);
  const view = new DataView(bytes.buffer);
  bytes.set([0x49, 0x49, 0x2a, 0, 8, 0, 0, 0]);
  const sorted = [...camera].sort((a, b) => a.tag - b.tag);
  const withPointer = (at: number): DrawnNote[] =>
    [...picture, { tag: 0x8769, short: at }].sort((a, b) => a.tag - b.tag);
  // Drawn once to learn its length, then with the true place of the camera's directory.
  const cameraAt = drawDirectory(view, 8, withPointer(0));
  drawDirectory(view, 8, withPointer(cameraAt));
  return bytes.slice(0, drawDirectory(view, cameraAt, sorted));
}

/** A JPEG of nothing but its notes: no decoder takes it, a reader of notes does. */
export function drawJpegWithNotes(picture: readonly DrawnNote[], camera: readonly DrawnNote[]): Uint8Array {
  const exif = drawExif(picture, camera);
  const length = exif.length + 8;
  const head = [0xff, 0xd8, 0xff, 0xe1, length >> 8, length & 255, ...'Exif\0\0'.split('').map((c) => c.charCodeAt(0))];
  return Uint8Array.from([...head, ...exif, 0xff, 0xd9]);
}
