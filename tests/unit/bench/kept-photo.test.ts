import { mkdtemp, rm, utimes, writeFile } from 'node:fs/promises';
import os from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, expect, describe, it } from 'vitest';
import { keepingLastPhotos } from '../../../core/node/engine/kept-photo';
import { clampRegion } from '../../../core/node/decode/upright';
import type { DecodedPhoto, PixelRegion } from '../../../core/photo/decoded-photo';

let folder = '';
let file = '';

beforeAll(async () => {
  folder = await mkdtemp(path.join(os.tmpdir(), 'evendial-kept-'));
  file = path.join(folder, 'photo.jpg');
  await writeFile(file, 'one');
});
afterAll(() => rm(folder, { recursive: true, force: true }));

/** A photo whose code values tell where they lie. */
function decodedPart(size: readonly [number, number], asked: PixelRegion | null): DecodedPhoto {
  const [widthPx, heightPx] = size;
  const region = clampRegion(asked, widthPx, heightPx);
  const codes = new Uint16Array(3 * region.width * region.height);
  codes.forEach((_, i) => {
    const at = Math.floor(i / 3);
    const column = region.column + (at % region.width);
    const row = region.row + Math.floor(at / region.width);
    codes[i] = 3 * (row * widthPx + column) + (i % 3);
  });
  const camera = { whiteBalance: 'unknown' } as const;
  const facts = { sha256: '', widthPx, heightPx, bitDepth: 16, format: 'png', camera, exifSaysSrgb: true } as const;
  const photo = { facts: { ...facts, toneMappingHints: [] }, region, codes, linear: null, icc: null };
  return { ...photo, profileName: null, decodeMs: 1 };
}

function counted(size: readonly [number, number] = [40, 30]) {
  const asks: (PixelRegion | null)[] = [];
  const decode = keepingLastPhotos((_, { regionPx }) => {
    asks.push(regionPx);
    return Promise.resolve(decodedPart(size, regionPx));
  });
  return { asks, decode };
}

const regionOf = (column: number, row: number, width: number, height: number): PixelRegion => ({
  column,
  row,
  width,
  height,
});

describe('the photos decoded last', () => {
  it('[BE14] are not decoded again for a part, and the part is the same to the last code', async () => {
    const { asks, decode } = counted();
    await decode(file, { regionPx: null });
    for (const region of [regionOf(3, 4, 10, 5), regionOf(-5, -2, 20, 50), regionOf(2.5, 3.25, 7.5, 4), null]) {
      const { codes, region: has } = await decode(file, { regionPx: region });
      const afresh = decodedPart([40, 30], region);
      expect(has).toEqual(afresh.region);
      expect(codes).toEqual(afresh.codes);
    }
    expect(asks).toEqual([null]);
  });

  it('[BE14] are decoded whole when another part is asked for', async () => {
    const { asks, decode } = counted();
    await decode(file, { regionPx: regionOf(10, 10, 10, 10) });
    const moved = await decode(file, { regionPx: regionOf(9, 10, 10, 10) });
    expect(moved.region).toEqual(regionOf(9, 10, 10, 10));
    await decode(file, { regionPx: regionOf(0, 0, 40, 2) });
    expect(asks).toEqual([regionOf(10, 10, 10, 10), null]);
  });

  it('[BE14] are forgotten when the file changes', async () => {
    const { asks, decode } = counted();
    await decode(file, { regionPx: null });
    await utimes(file, 1, 2);
    await decode(file, { regionPx: null });
    expect(asks).toHaveLength(2);
  });

  it('[BE14] are several, until there is no room for the one that was not asked for the longest', async () => {
    // 16 bits, 8 megapixels: 48 MB each, of 120.
    const { asks, decode } = counted([4000, 2000]);
    const files = ['try', 'reference', 'third'].map((name) => path.join(folder, name));
    for (const name of files) await writeFile(name, name);
    const [tried, reference, third] = files;
    const asked = async (name: string): Promise<number> => {
      await decode(name, { regionPx: null });
      return asks.length;
    };
    expect([await asked(tried), await asked(reference), await asked(tried), await asked(reference)]).toEqual([
      1, 2, 2, 2,
    ]);
    expect([await asked(third), await asked(reference), await asked(tried)]).toEqual([3, 3, 4]);
  });

  it('[BE14] a large photo is not kept, nor decoded whole for a part', async () => {
    // 16 bits, 15 megapixels: 90 MB.
    const { asks, decode } = counted([5000, 3000]);
    const part = regionOf(0, 0, 8, 8);
    await decode(file, { regionPx: part });
    await decode(file, { regionPx: regionOf(1, 1, 8, 8) });
    expect(asks).toEqual([part, regionOf(1, 1, 8, 8)]);
  });

  it('[BE14] a file that is gone is the decoder to tell', async () => {
    const decode = keepingLastPhotos(() => Promise.reject(new Error('no such photo')));
    await expect(decode(path.join(folder, 'gone.jpg'), { regionPx: null })).rejects.toThrow('no such photo');
  });
});
