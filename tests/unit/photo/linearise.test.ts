import { describe, expect, it } from 'vitest';
import { applyMatrix } from '../../../core/colour/matrix3';
import { linearFromSrgb } from '../../../core/colour/transfer';
import { linearisePhoto } from '../../../core/photo/linearise';
import { blueClipped, greenClipped, outsideGamut, redClipped } from '../../../core/photo/linear-photo';
import { readColourProfile } from '../../../core/photo/profile';
import { drawDecoded, seededNumbers } from './draw-decoded';
import { curveTag, descriptionTag, drawProfile, parametricTag, threeColourTags } from './icc-drawn';

/** @source Lindbloom, RGB/XYZ matrices: Adobe RGB (1998) under D50 */
const adobeColorants = [
  [0.6097559, 0.3111242, 0.0194811],
  [0.2052401, 0.625656, 0.0608902],
  [0.149224, 0.0632197, 0.7448387],
] as const;
const adobe = drawProfile('RGB ', threeColourTags(adobeColorants, curveTag([563]), 'drawn wide'));

function randomCodes(length: number, fullScale: 255 | 65535, seed: number): Uint8Array | Uint16Array {
  const next = seededNumbers(seed);
  const codes = fullScale === 255 ? new Uint8Array(length) : new Uint16Array(length);
  return codes.map(() => Math.floor(next() * (fullScale + 1)));
}

describe('linearisePhoto', () => {
  it.each([
    [255, 1, 1],
    [255, 7, 3],
    [65535, 5, 4],
  ] as const)('[PX1] codes of full scale %i, %i x %i, equal the scalar sRGB formula', (fullScale, width, height) => {
    const codes = randomCodes(width * height * 3, fullScale, 11);
    const before = codes.slice();
    const photo = linearisePhoto(drawDecoded(codes, width), 'srgb', true);
    codes.forEach((code, i) => expect(photo.rgb[i]).toBe(Math.fround(linearFromSrgb(code / fullScale))));
    expect(codes).toEqual(before);
    expect(photo).toMatchObject({
      region: { column: 2, row: 5, width, height },
      widthPx: width + 7,
      heightPx: height + 11,
    });
  });

  it('[PX1] a profile equals its scalar curve and matrix, and light is not cut to 0..1', () => {
    const codes = Uint8Array.from([...randomCodes(60, 255, 12), 0, 255, 3, 255, 0, 7]);
    const profile = readColourProfile(adobe);
    if (profile.kind !== 'matrix') throw new Error(profile.kind);
    const { rgb, colourSpace, colourSpaceAssumed } = linearisePhoto(
      drawDecoded(codes, 11, { icc: adobe }),
      'profile',
      false,
    );
    for (let i = 0; i < codes.length; i += 3) {
      const light = [0, 1, 2].map((channel) => profile.curves[channel].lightOf(codes[i + channel] / 255));
      const expected = applyMatrix(profile.toLinearSrgb, light as unknown as [number, number, number]);
      expected.forEach((value, channel) => expect(rgb[i + channel]).toBeWithin(value, 1e-6)); // float32
    }
    expect(Math.min(...rgb)).toBeLessThan(-0.3);
    expect(Math.max(...rgb)).toBeGreaterThan(1.3);
    expect([colourSpace, colourSpaceAssumed]).toEqual(['drawn wide', false]);
  });

  it('[PX2] what the space is called, and whether it was assumed', () => {
    const codes = Uint8Array.of(10, 20, 30);
    const spaceOf = (more: Parameters<typeof drawDecoded>[2], encoding: 'srgb' | 'profile' | 'linear'): unknown[] => {
      const { colourSpace, colourSpaceAssumed } = linearisePhoto(drawDecoded(codes, 1, more), encoding, false);
      return [colourSpace, colourSpaceAssumed];
    };
    expect(spaceOf({}, 'profile')).toEqual(['sRGB', true]);
    expect(spaceOf({ facts: { exifSaysSrgb: true } }, 'profile')).toEqual(['sRGB', false]);
    expect(spaceOf({ icc: adobe.slice(0, 200) }, 'profile')).toEqual(['sRGB', true]);
    expect(spaceOf({ icc: adobe }, 'srgb')).toEqual(['sRGB', false]);
    expect(spaceOf({ icc: adobe }, 'linear')).toEqual(['drawn wide', false]);
  });

  it('[PX2] linear: codes are light, and the primaries of a matrix profile still apply', () => {
    const codes = Uint16Array.of(0, 16384, 65535);
    expect([...linearisePhoto(drawDecoded(codes, 1), 'linear', true).rgb]).toEqual([0, Math.fround(16384 / 65535), 1]);
    const profile = readColourProfile(adobe);
    if (profile.kind !== 'matrix') throw new Error(profile.kind);
    const { rgb } = linearisePhoto(drawDecoded(codes, 1, { icc: adobe }), 'linear', true);
    applyMatrix(profile.toLinearSrgb, [0, 16384 / 65535, 1]).forEach((v, i) => expect(rgb[i]).toBeWithin(v, 1e-6)); // float32
  });

  it('[PX2] srgb ignores the profile', () => {
    const codes = Uint8Array.of(12, 134, 250);
    expect(linearisePhoto(drawDecoded(codes, 1, { icc: adobe }), 'srgb', true).rgb).toEqual(
      linearisePhoto(drawDecoded(codes, 1), 'srgb', true).rgb,
    );
  });

  it('[PX2] a grey profile acts on each channel alike and leaves grey neutral', () => {
    const icc = drawProfile('GRAY', { desc: descriptionTag('drawn grey'), kTRC: curveTag([461]) });
    const { rgb, colourSpace } = linearisePhoto(drawDecoded(Uint8Array.of(77, 77, 77), 1, { icc }), 'profile', false);
    for (const light of rgb) expect(light).toBeWithin((77 / 255) ** (461 / 256), 1e-7); // float32
    expect(colourSpace).toBe('drawn grey');
  });

  it('[PX3] how far the response is known', () => {
    const straight = drawProfile('RGB ', threeColourTags(adobeColorants, parametricTag(0, [1])));
    const trustOf = (icc: Uint8Array | null, encoding: 'srgb' | 'profile' | 'linear', stated: boolean): string =>
      linearisePhoto(drawDecoded(Uint8Array.of(1, 2, 3), 1, { icc }), encoding, stated).response;
    expect(trustOf(null, 'linear', true)).toBe('linear');
    expect(trustOf(straight, 'profile', false)).toBe('linear');
    expect(trustOf(null, 'srgb', true)).toBe('stated');
    expect(trustOf(null, 'srgb', false)).toBe('unknown');
    expect(trustOf(adobe, 'profile', true)).toBe('unknown');
    expect(trustOf(null, 'profile', true)).toBe('unknown');
  });

  const flagOf = (codes: Uint8Array | Uint16Array, encoding: 'srgb' | 'linear' = 'srgb'): number =>
    linearisePhoto(drawDecoded(codes, 1), encoding, true).flags[0];

  it('[PX3] each channel is clipped from code 250 on, at both depths', () => {
    expect(flagOf(Uint8Array.of(249, 200, 100))).toBe(0);
    expect(flagOf(Uint8Array.of(250, 200, 100))).toBe(redClipped);
    expect(flagOf(Uint8Array.of(90, 251, 100))).toBe(greenClipped);
    expect(flagOf(Uint8Array.of(255, 254, 253))).toBe(redClipped | greenClipped | blueClipped);
    expect(flagOf(Uint16Array.of(250 * 257, 20_000, 40 * 257))).toBe(redClipped);
    expect(flagOf(Uint16Array.of(250 * 257 - 1, 30000, 20000))).toBe(0);
  });

  it('[PX3] linear codes are clipped from 0.98 on', () => {
    expect(flagOf(Uint16Array.of(64225, 30000, 20000), 'linear')).toBe(redClipped); // 0.98 x 65535 = 64224.3
    expect(flagOf(Uint16Array.of(64224, 30000, 20000), 'linear')).toBe(0);
  });

  it('[PX3] outside the colour space: one channel at most 1 while another is above 40', () => {
    expect(flagOf(Uint8Array.of(41, 20, 1))).toBe(outsideGamut);
    expect(flagOf(Uint8Array.of(41, 20, 2))).toBe(0);
    expect(flagOf(Uint8Array.of(40, 20, 0))).toBe(0);
    expect(flagOf(Uint8Array.of(255, 30, 0))).toBe(outsideGamut | redClipped);
    // As light, code 1 is 20 of 65535 and code 40 is 1388.
    expect(flagOf(Uint16Array.of(1400, 900, 15), 'linear')).toBe(outsideGamut);
    expect(flagOf(Uint16Array.of(1400, 900, 30), 'linear')).toBe(0);
  });

  it('[PX5] light that a colour engine found is taken as it is; codes still tell what was clipped', () => {
    const linear = Float32Array.of(1.25, -0.125, 0.5, 0.0625, 0.25, 0.75);
    const codes = Uint8Array.of(252, 3, 180, 60, 120, 200);
    const decoded = drawDecoded(codes, 2, { linear, profileName: 'tables' });
    const photo = linearisePhoto(decoded, 'profile', false);
    expect(photo).toMatchObject({ colourSpace: 'tables', colourSpaceAssumed: false, response: 'unknown' });
    expect(photo.rgb).toEqual(linear);
    expect(photo.rgb).not.toBe(linear);
    expect([...photo.flags]).toEqual([redClipped, 0]);
    // The user's word goes before the profile, where there are codes to go by.
    expect(linearisePhoto(decoded, 'srgb', true).rgb[3]).toBe(Math.fround(linearFromSrgb(60 / 255)));
    const inks = linearisePhoto(drawDecoded(null, 2, { linear, profileName: 'inks' }), 'srgb', true);
    expect(inks.rgb).toEqual(linear);
    expect([...inks.flags]).toEqual([redClipped | outsideGamut, 0]);
  });

  it('[PX1] planes that do not fit the region are a defect', () => {
    const decoded = { ...drawDecoded(Uint8Array.of(1, 2, 3), 1), region: { column: 0, row: 0, width: 2, height: 1 } };
    expect(() => linearisePhoto(decoded, 'srgb', true)).toThrow(RangeError);
    expect(() => linearisePhoto({ ...decoded, codes: null }, 'srgb', true)).toThrow(RangeError);
  });
});
