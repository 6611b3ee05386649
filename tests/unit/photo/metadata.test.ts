import { describe, expect, it } from 'vitest';
import { readPhotoNotes } from '../../../core/photo/metadata';
import { seededNumbers } from './draw-decoded';
import { drawJpegWithNotes, type DrawnNote } from './exif-drawn';

const tag = {
  make: 0x010f,
  model: 0x0110,
  orientation: 0x0112,
  exposureTime: 0x829a,
  fNumber: 0x829d,
  iso: 0x8827,
  takenAt: 0x9003,
  shutterSpeed: 0x9201,
  focalLength: 0x920a,
  colourSpace: 0xa001,
  whiteBalance: 0xa403,
  focalLength35: 0xa405,
};

const picture: readonly DrawnNote[] = [
  { tag: tag.make, text: 'Drawn Cameras ' },
  { tag: tag.model, text: 'Model 7' },
  { tag: tag.orientation, short: 6 },
];
const camera: readonly DrawnNote[] = [
  { tag: tag.exposureTime, rational: [1, 8] },
  { tag: tag.fNumber, rational: [56, 10] },
  { tag: tag.iso, short: 320 },
  { tag: tag.takenAt, text: '2024:02:29 23:59:07' },
  { tag: tag.focalLength, rational: [425, 100] },
  { tag: tag.colourSpace, short: 1 },
  { tag: tag.whiteBalance, short: 1 },
  { tag: tag.focalLength35, short: 27 },
];
const notesOf = (...changed: DrawnNote[]): ReturnType<typeof readPhotoNotes> => {
  const tags = changed.map((note) => note.tag);
  const keep = (notes: readonly DrawnNote[]): DrawnNote[] => notes.filter((note) => !tags.includes(note.tag));
  const isPicture = (note: DrawnNote): boolean => note.tag < 0x8000;
  return readPhotoNotes(
    drawJpegWithNotes(
      [...keep(picture), ...changed.filter(isPicture)],
      [...keep(camera), ...changed.filter((note) => !isPicture(note))],
    ),
  );
};

describe('readPhotoNotes', () => {
  it('[PX6] all notes of a complete photo', () => {
    expect(notesOf()).toEqual({
      camera: {
        make: 'Drawn Cameras',
        model: 'Model 7',
        exposureS: 0.125,
        fNumber: 5.6,
        iso: 320,
        focalLengthMm: 4.25,
        takenAt: '2024-02-29T23:59:07',
        whiteBalance: 'manual',
      },
      focalLength35Mm: 27,
      exifSaysSrgb: true,
      orientation: 6,
      toneMappingHints: [],
    });
  });

  it.each<[string, DrawnNote, string]>([
    ['time 1/0', { tag: tag.exposureTime, rational: [1, 0] }, 'exposureS'],
    ['time 0/0', { tag: tag.exposureTime, rational: [0, 0] }, 'exposureS'],
    ['time 0/1', { tag: tag.exposureTime, rational: [0, 1] }, 'exposureS'],
    ['time of a text', { tag: tag.exposureTime, text: 'long' }, 'exposureS'],
    ['f-number 0/0', { tag: tag.fNumber, rational: [0, 0] }, 'fNumber'],
    ['f-number without end', { tag: tag.fNumber, rational: [0xffffffff, 0] }, 'fNumber'],
    ['f-number 4294967295/1', { tag: tag.fNumber, rational: [0xffffffff, 1] }, 'fNumber'],
    ['ISO 0', { tag: tag.iso, short: 0 }, 'iso'],
    ['ISO 65535 (more than fits)', { tag: tag.iso, short: 65535 }, 'iso'],
    ['focal length 0', { tag: tag.focalLength, rational: [0, 7] }, 'focalLengthMm'],
    ['30 February', { tag: tag.takenAt, text: '2024:02:30 10:00:00' }, 'takenAt'],
    ['a camera that was never set', { tag: tag.takenAt, text: '0000:00:00 00:00:00' }, 'takenAt'],
    ['25 hours', { tag: tag.takenAt, text: '2024:02:28 25:00:00' }, 'takenAt'],
    ['an empty make', { tag: tag.make, text: '     ' }, 'make'],
  ])('[PX6] %s is left out, and all else stays', (_, note, field) => {
    const { [field as 'iso']: gone, ...others } = notesOf(note).camera;
    expect(gone).toBeUndefined();
    const { [field as 'iso']: whole, ...expected } = notesOf().camera;
    expect(whole).toBeDefined();
    expect(others).toEqual(expected);
  });

  it('[PX6] white balance and sRGB are taken as stated, and otherwise unknown', () => {
    expect(notesOf({ tag: tag.whiteBalance, short: 0 }).camera.whiteBalance).toBe('auto');
    expect(notesOf({ tag: tag.whiteBalance, short: 9 }).camera.whiteBalance).toBe('unknown');
    expect(notesOf({ tag: tag.colourSpace, short: 65535 }).exifSaysSrgb).toBe(false);
  });

  it('[PX6] the exposure time follows from the shutter speed value where it is missing', () => {
    const { exposureS } = readPhotoNotes(drawJpegWithNotes([], [{ tag: tag.shutterSpeed, rational: [5, 1] }])).camera;
    expect(exposureS).toBe(1 / 32);
  });

  it('[PX8] an orientation out of 1..8 is none', () => {
    for (const value of [0, 9, 65535]) expect(notesOf({ tag: tag.orientation, short: value }).orientation).toBe(1);
    for (const value of [1, 3, 8]) expect(notesOf({ tag: tag.orientation, short: value }).orientation).toBe(value);
  });

  it('[PX6] a very long text is cut, control signs go', () => {
    const { model } = notesOf({ tag: tag.model, text: `A\u0007B${'x'.repeat(60_000)}` }).camera;
    expect(model).toBe(`AB${'x'.repeat(98)}`);
  });

  it('[PX6] damaged notes give plausible values or none, whatever byte is wrong', () => {
    const whole = drawJpegWithNotes(picture, camera);
    const before = whole.slice();
    const next = seededNumbers(21);
    for (let round = 0; round < 600; round++) {
      const bytes = whole.slice(0, round % 3 === 0 ? Math.floor(next() * whole.length) : whole.length);
      for (let hit = 0; hit < 3 && bytes.length; hit++)
        bytes[Math.floor(next() * bytes.length)] = Math.floor(next() * 256);
      const { camera: facts, focalLength35Mm, orientation } = readPhotoNotes(bytes);
      for (const value of [...Object.values(facts), focalLength35Mm ?? 1]) {
        expect(
          typeof value === 'number' ? value > 0 && value < 1e8 : typeof value === 'string' && value.length > 0,
        ).toBe(true);
      }
      expect([1, 2, 3, 4, 5, 6, 7, 8]).toContain(orientation);
    }
    expect(whole).toEqual(before);
  });
});
