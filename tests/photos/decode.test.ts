import { existsSync } from 'node:fs';
import { readdir } from 'node:fs/promises';
import { afterAll, describe, expect, it } from 'vitest';
import { AppError } from '../../core/base/errors';
import { createDecoder } from '../../core/node/decode-process';
import { linearisePhoto } from '../../core/photo/linearise';
import type { DecodedPhoto, PhotoFacts } from '../../core/photo/decoded-photo';
import type { LinearPhoto } from '../../core/photo/linear-photo';
import {
  badPhotos,
  goodPhotos,
  photosAbsent,
  photosFolder,
  placeOf,
  refusedPhotos,
  whySkipped,
  type Noted,
  type ReadablePhoto,
} from './shared-photos';

const decoder = createDecoder({ processes: 2 });
const wasmDecoder = createDecoder({ processes: 1, build: 'wasm' });

afterAll(async () => {
  await Promise.all([decoder.close(), wasmDecoder.close()]);
});

/** @source IEC 61966-2-1: second row of the matrix of sRGB to XYZ, as the facts were made with it */
function luminanceAt(photo: LinearPhoto, column: number, row: number): number {
  const i = 3 * (row * photo.region.width + column);
  return 0.2126 * photo.rgb[i] + 0.7152 * photo.rgb[i + 1] + 0.0722 * photo.rgb[i + 2];
}

/** Mean of the 5 x 5 pixels about a place, as far as they lie in the photo. */
function meanLuminanceAbout(photo: LinearPhoto, x: number, y: number): number {
  let sum = 0;
  let count = 0;
  for (let row = Math.max(0, y - 2); row <= Math.min(photo.heightPx - 1, y + 2); row++) {
    for (let column = Math.max(0, x - 2); column <= Math.min(photo.widthPx - 1, x + 2); column++, count++) {
      sum += luminanceAt(photo, column, row);
    }
  }
  return sum / count;
}

const isLossy = (format: string): boolean => ['jpeg', 'webp', 'avif'].includes(format);

const numberIn = (noted: Noted): number | null | undefined =>
  typeof noted === 'object' ? (noted?.number ?? null) : noted;

function expectCameraFacts(photo: ReadablePhoto, { camera }: PhotoFacts): void {
  const known = photo.expected.by_exiftool_12_57;
  const figures: readonly (readonly [string, number | undefined, Noted])[] = [
    ['exposure time', camera.exposureS, known.exposure_time],
    ['f-number', camera.fNumber, known.f_number],
    ['ISO', camera.iso, known.iso],
    ['focal length', camera.focalLengthMm, known.focal_length],
  ];
  for (const [name, ours, noted] of figures) {
    const theirs = numberIn(noted);
    if (theirs === undefined || theirs === null) expect(ours, name).toBeUndefined();
    else expect(ours! / theirs, name).toBeWithin(1, 1e-6); // the facts are printed with up to 10 digits
  }
  expect(camera.make).toBe(known.make?.trim() ?? undefined);
  expect(camera.model).toBe(known.model?.trim() ?? undefined);
  const balance = numberIn(known.white_balance);
  expect(camera.whiteBalance).toBe(balance === 0 ? 'auto' : balance === 1 ? 'manual' : 'unknown');
  const taken = known.date_time_original?.slice(0, 19);
  expect(camera.takenAt).toBe(taken?.replace(/^(\d{4}):(\d\d):(\d\d) /, '$1-$2-$3T'));
}

describe.skipIf(photosAbsent)(`photos whose facts are known${whySkipped}`, () => {
  it.each(goodPhotos)('[PX1] $file: size, camera and light are those that other programs found', async (photo) => {
    const decoded = await decoder.decode(placeOf(photo), { regionPx: null });
    const { facts } = decoded;
    expect(facts.sha256).toBe(photo.sha256);
    expect([facts.widthPx, facts.heightPx]).toEqual(photo.expected.size_after_orientation);
    expectCameraFacts(photo, facts);
    const linear = linearisePhoto(decoded, 'profile', false);
    const profileName = photo.expected.by_exiftool_12_57.icc_profile_name;
    if (profileName) expect(linear.colourSpace).toBe(profileName.trim());
    for (const point of photo.expected.pixels.points) {
      if (point.Y === undefined || point.Y_mean_5x5 === undefined) continue;
      const mean = meanLuminanceAbout(linear, point.x, point.y);
      // Lossy: decoders differ by up to 2 of 255 codes a pixel. Lossless: the facts have five decimals, and come from
      // printed matrices and four-figure output of the colour engine.
      const tolerance = isLossy(facts.format) ? 4e-3 : 6e-4;
      expect(mean, point.name).toBeWithin(point.Y_mean_5x5, tolerance);
      if (isLossy(facts.format)) continue;
      const at = 3 * (point.y * linear.region.width + point.x);
      point.linear_srgb_unclipped?.forEach((light, channel) =>
        expect(linear.rgb[at + channel], `${point.name}, channel ${channel}`).toBeWithin(light, 1.5e-3),
      );
    }
  });

  it('[PX1] losslessly stored codes are those of the file', async () => {
    let compared = 0;
    for (const photo of goodPhotos) {
      const decoded = await decoder.decode(placeOf(photo), { regionPx: null });
      const { codes, facts } = decoded;
      if (!codes || isLossy(facts.format)) continue;
      const scale = codes instanceof Uint8Array ? 1 : 65535 / 255;
      for (const point of photo.expected.pixels.points) {
        const at = 3 * (point.y * facts.widthPx + point.x);
        const known = [point.code_0_255, point.code_0_255, point.code_0_255].flat();
        known.slice(0, 3).forEach((code, channel) =>
          // Half a unit of the last printed decimal, in the file's own codes.
          expect(codes[at + channel] / scale, `${photo.file} ${point.name}`).toBeWithin(code, 6e-3),
        );
        compared++;
      }
    }
    expect(compared).toBeGreaterThan(100);
  });

  it('[PX8] all eight orientations of one picture give the same picture', async () => {
    const photos = goodPhotos.filter((photo) => photo.file.includes('orientation_landscape_'));
    expect(photos.length).toBe(8);
    const upright = await Promise.all(photos.map((photo) => decoder.decode(placeOf(photo), { regionPx: null })));
    const [first] = upright;
    const { widthPx } = first.facts;
    const meanDifference = (other: DecodedPhoto, mirrored: boolean): number => {
      let sum = 0;
      for (let i = 0; i < first.codes!.length; i++) {
        const column = Math.floor(i / 3) % widthPx;
        const at = mirrored ? i + 3 * (widthPx - 1 - 2 * column) : i;
        sum += Math.abs(first.codes![i] - other.codes![at]);
      }
      return sum / first.codes!.length;
    };
    for (const other of upright.slice(1)) {
      expect([other.facts.widthPx, other.facts.heightPx]).toEqual([1800, 1200]);
      // Each is a JPEG of its own, so they differ in noise; a mirrored picture shows what a wrong turn would give.
      expect(meanDifference(other, false)).toBeLessThan(5);
      expect(meanDifference(other, true)).toBeGreaterThan(25);
    }
  });

  it('[PX11] the native and the WebAssembly decoder give the same codes', async () => {
    for (const photo of goodPhotos) {
      const [native, wasm] = await Promise.all(
        [decoder, wasmDecoder].map((one) => one.decode(placeOf(photo), { regionPx: null })),
      );
      const { codes, linear } = native;
      expect(wasm.facts, photo.file).toEqual(native.facts);
      const same = (a: ArrayLike<number> | null, b: ArrayLike<number> | null): boolean =>
        a?.length === b?.length && (!a || !b || Array.prototype.every.call(a, (value, i) => value === b[i]));
      expect(same(codes, wasm.codes) && same(linear, wasm.linear), photo.file).toBe(true);
    }
  }, 180_000);

  it.each(refusedPhotos)('[PX7] $file is refused with what to do', async (photo) => {
    await expect(decoder.decode(placeOf(photo), { regionPx: null })).rejects.toMatchObject({
      kind: 'photo',
      code: 'PHOTO_FORMAT_UNSUPPORTED',
      remedy: expect.stringMatching(/Export/) as unknown,
    });
  });
});

/** What must happen to each bad file; those that are only odd in their notes or names are valid photos. */
const expectedFate: Readonly<Record<string, string>> = {
  '17000x17000.avif': 'PHOTO_TOO_LARGE',
  '65536-uint32-limit.png': 'PHOTO_TOO_LARGE',
  'broken_data_stream.png': 'PHOTO_DAMAGED',
  'corrupt-header.jpg': 'PHOTO_DAMAGED',
  'cut_middle_of_scan.jpg': 'PHOTO_DAMAGED',
  'exif_zero_denominators.jpg': 'read',
  'jpeg_named.png': 'read',
  'name with spaces & (brackets) #1.jpg': 'read',
  'not_kitty.gif': 'PHOTO_FORMAT_UNSUPPORTED',
  'png_1x1.png': 'read',
  'png_header_60000x60000.png': 'PHOTO_TOO_LARGE',
  'png_named.jpg': 'read',
  'polyglot_jpeg_zip.jpg': 'read',
  'svg_external_ref.svg': 'PHOTO_FORMAT_UNSUPPORTED',
  'text_named.jpg': 'PHOTO_FORMAT_UNSUPPORTED',
  'tiff_header_bomb.tif': 'PHOTO_TOO_LARGE',
  'truncated.jpg': 'PHOTO_DAMAGED',
  'truncated.png': 'PHOTO_DAMAGED',
  'zero_byte.jpg': 'PHOTO_EMPTY',
};

describe.skipIf(photosAbsent)(`bad files${whySkipped}`, () => {
  it.each(badPhotos)('[PX9] $file is read, or refused with what to do', async (photo) => {
    const name = photo.file.replace('bad/', '');
    const fate = await decoder.decode(placeOf(photo), { regionPx: null }).then(
      ({ facts, codes }) => {
        expect(codes!.length).toBe(3 * facts.widthPx * facts.heightPx);
        expect(Object.values(facts.camera).every((value) => value === value && value !== Infinity)).toBe(true);
        return 'read';
      },
      (error: unknown) => {
        if (!(error instanceof AppError)) throw error;
        expect(error.kind).toBe('photo');
        expect(error.message).toContain(name);
        expect(error.remedy.length).toBeGreaterThan(20);
        return error.code;
      },
    );
    expect(fate).toBe(expectedFate[name] ?? fate);
  });

  it('[PX9] the list of fates names files that are there', async () => {
    const there = await readdir(`${photosFolder}/bad`);
    expect(Object.keys(expectedFate).filter((name) => !there.includes(name))).toEqual([]);
    expect(existsSync(photosFolder)).toBe(true);
  });
});
