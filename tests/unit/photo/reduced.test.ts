import { describe, expect, it } from 'vitest';
import type { DecodedPhoto } from '../../../core/photo/decoded-photo';
import { partOf, reducedPhoto } from '../../../core/photo/reduced';

/** A photo whose red codes count its pixels, green codes their columns. */
function counted(width: number, height: number): DecodedPhoto {
  const codes = new Uint16Array(3 * width * height);
  for (let i = 0; i < width * height; i++) codes.set([i, i % width, 7], 3 * i);
  return {
    facts: {
      sha256: 'ab',
      widthPx: width,
      heightPx: height,
      bitDepth: 16,
      format: 'png',
      camera: { whiteBalance: 'unknown' },
      exifSaysSrgb: false,
      toneMappingHints: [],
    },
    region: { column: 0, row: 0, width, height },
    codes,
    linear: null,
    icc: null,
    profileName: null,
    decodeMs: 0,
  };
}

describe('reducedPhoto', () => {
  it('[PX12] averages blocks, and leaves a small photo alone', () => {
    const photo = counted(9, 4);
    const { photo: small, factor } = reducedPhoto(photo, 10);
    expect(factor).toBe(2);
    expect(small.region).toEqual({ column: 0, row: 0, width: 4, height: 2 });
    // Pixels 0, 1, 9, 10 and then 2, 3, 11, 12: means 5 and 7; their columns .5 and 2.5, cut to whole codes.
    expect([...small.codes!.slice(0, 6)]).toEqual([5, 0, 7, 7, 2, 7]);
    expect(reducedPhoto(photo, 36)).toEqual({ photo, factor: 1 });
    expect(photo.codes![3]).toBe(1);
  });
});

describe('partOf', () => {
  it('[PX12] cuts whole pixels out, and clamps what lies outside', () => {
    const part = partOf(counted(7, 5), { column: 2, row: 3, width: 3, height: 9 });
    expect(part.region).toEqual({ column: 2, row: 3, width: 3, height: 2 });
    expect([...part.codes!].filter((_, i) => i % 3 === 0)).toEqual([23, 24, 25, 30, 31, 32]);
    expect(partOf(counted(7, 5), { column: 90, row: -4, width: 2, height: 2 }).region).toEqual({
      column: 6,
      row: 0,
      width: 1,
      height: 1,
    });
  });
});
