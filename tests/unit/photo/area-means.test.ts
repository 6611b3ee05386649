import { describe, expect, it } from 'vitest';
import { linearFromSrgb, srgbFromLinear } from '../../../core/colour/transfer';
import { meanLight, screenCodes } from '../../../core/photo/area-means';
import type { DecodedPhoto } from '../../../core/photo/decoded-photo';
import { linearisePhoto } from '../../../core/photo/linearise';
import { seededRandom } from '../../support/seeded-random';

function photoOf(width: number, height: number, codeAt: (i: number) => number): DecodedPhoto {
  return {
    facts: {
      sha256: '',
      widthPx: width,
      heightPx: height,
      bitDepth: 8,
      format: 'png',
      camera: { whiteBalance: 'unknown' },
      exifSaysSrgb: true,
      toneMappingHints: [],
    },
    region: { column: 0, row: 0, width, height },
    codes: Uint8Array.from({ length: width * height * 3 }, (_, i) => codeAt(i)),
    linear: null,
    icc: null,
    profileName: null,
    decodeMs: 0,
  };
}

const random = seededRandom(5);
const noise = (width: number, height: number): DecodedPhoto => photoOf(width, height, () => Math.floor(256 * random()));
const meansOfChannels = (rgb: Float32Array): number[] =>
  [0, 1, 2].map((channel) => {
    const values = rgb.filter((_, i) => i % 3 === channel);
    return values.reduce((sum, value) => sum + value, 0) / values.length;
  });

describe('meanLight', () => {
  it('[PX13] leaves a photo of its own size as it is', () => {
    const photo = noise(7, 5);
    const { rgb } = meanLight(photo, 'profile', 7, 5);
    expect(rgb).toEqual(linearisePhoto(photo, 'profile', false).rgb);
  });

  it('[PX13] averages light, not codes', () => {
    const photo = photoOf(2, 1, (i) => (i < 3 ? 0 : 255));
    const { rgb } = meanLight(photo, 'profile', 1, 1);
    expect(rgb).toEqual(Float32Array.of(0.5, 0.5, 0.5));
    expect(screenCodes({ width: 1, height: 1, rgb })).toEqual(Uint8ClampedArray.of(188, 188, 188, 255));
  });

  it('[PX13] shares pixels on a border by area: 3 pixels on 2 cells', () => {
    const [a, b, c] = [10, 100, 200];
    const photo = photoOf(3, 1, (i) => [a, b, c][Math.floor(i / 3)]);
    const [left, , , right] = meanLight(photo, 'profile', 2, 1).rgb;
    const light = (code: number): number => linearFromSrgb(code / 255);
    // Float32 sums: 6e-8 of the largest value.
    expect(left).toBeCloseTo((light(a) + light(b) / 2) / 1.5, 6);
    expect(right).toBeCloseTo((light(b) / 2 + light(c)) / 1.5, 6);
  });

  it.each([
    [13, 9, 5, 4],
    [1201, 1009, 97, 350],
    [40, 30, 40, 1],
  ])('[PX13] %i x %i pixels on %i x %i cells keep their light, without a shift', (width, height, across, down) => {
    const photo = noise(width, height);
    const whole = meansOfChannels(linearisePhoto(photo, 'profile', false).rgb);
    const { rgb } = meanLight(photo, 'profile', across, down);
    // Float32 sums of up to 1200 terms.
    meansOfChannels(rgb).forEach((mean, i) => expect(mean / whole[i]).toBeCloseTo(1, 5));
    // A ramp keeps its slope. Its steps make a cell that ends inside a pixel differ by at most 1/8 pixel over its width.
    const linear = new Float32Array(width * height * 3).map((_, i) => Math.floor(i / 3) % width);
    const ramp = meanLight({ ...photo, codes: null, linear }, 'profile', across, down).rgb;
    const slack = (0.125 * across) / width + 1e-3;
    for (let cell = 0; cell < across; cell++) {
      expect(Math.abs(ramp[3 * cell] - (((cell + 0.5) * width) / across - 0.5))).toBeLessThan(slack);
    }
  });

  it('[PX13] a size that is none, or larger than the photo, is a defect', () => {
    const photo = noise(4, 3);
    for (const [width, height] of [
      [5, 3],
      [4, 0],
      [NaN, 1],
    ]) {
      expect(() => meanLight(photo, 'profile', width, height)).toThrow(RangeError);
    }
  });
});

describe('screenCodes', () => {
  it('[PX13] gives every code of an sRGB photo back, and cuts what lies beyond', () => {
    const rgb = Float32Array.from({ length: 256 * 3 }, (_, i) => linearFromSrgb(Math.floor(i / 3) / 255));
    const rgba = screenCodes({ width: 256, height: 1, rgb });
    expect([...rgba].filter((_, i) => i % 4 === 1)).toEqual(Array.from({ length: 256 }, (_, i) => i));
    expect(screenCodes({ width: 1, height: 1, rgb: Float32Array.of(-0.2, 1.7, 0.5) })).toEqual(
      Uint8ClampedArray.of(0, 255, Math.round(255 * srgbFromLinear(0.5)), 255),
    );
  });
});
