import { describe, expect, it } from 'vitest';
import { readColourProfile } from '../../../core/photo/profile';
import {
  curveTag,
  descriptionTag,
  drawProfile,
  manyLanguagesTag,
  parametricTag,
  threeColourTags,
  type TagData,
} from './icc-drawn';

/** Published colorants of sRGB under D50. @source ICC sRGB v2 profile; Lindbloom, RGB/XYZ matrices (Bradford) */
const srgbColorants = [
  [0.4360747, 0.2225045, 0.0139322],
  [0.3850649, 0.7168786, 0.0971045],
  [0.1430804, 0.0606169, 0.7141733],
] as const;
/** @source Lindbloom, RGB/XYZ matrices: Adobe RGB (1998) under D50 */
const adobeColorants = [
  [0.6097559, 0.3111242, 0.0194811],
  [0.2052401, 0.625656, 0.0608902],
  [0.149224, 0.0632197, 0.7448387],
] as const;

function matrixProfile(
  tags: Record<string, TagData>,
): Extract<ReturnType<typeof readColourProfile>, { kind: 'matrix' }> {
  const profile = readColourProfile(drawProfile('RGB ', tags));
  if (profile.kind !== 'matrix') throw new Error(`kind ${profile.kind}`);
  return profile;
}

const withCurve = (curve: TagData): ReturnType<typeof matrixProfile> =>
  matrixProfile(threeColourTags(srgbColorants, curve));

describe('readColourProfile', () => {
  it('[PX4] the colorants of sRGB give the identity, D50 to D65 by Bradford', () => {
    const { toLinearSrgb } = withCurve(curveTag([]));
    for (let i = 0; i < 3; i++) {
      // Seven printed decimals under a slightly other white, and s15Fixed16 rounding: a few 1e-4.
      for (let j = 0; j < 3; j++) expect(toLinearSrgb[i][j]).toBeWithin(i === j ? 1 : 0, 5e-4);
    }
  });

  it('[PX4] Adobe RGB is wider than sRGB in red: its green is negative red there', () => {
    const { toLinearSrgb } = matrixProfile(threeColourTags(adobeColorants, curveTag([563])));
    // @source published conversion: linear Adobe RGB to linear sRGB has the first row 1.3983, -0.3983, 0.0000
    expect(toLinearSrgb[0][0]).toBeWithin(1.3983, 1e-3);
    expect(toLinearSrgb[0][1]).toBeWithin(-0.3983, 1e-3);
    expect(toLinearSrgb[0][2]).toBeWithin(0, 1e-3);
    expect(toLinearSrgb[2][1]).toBeWithin(-0.0429, 1e-3);
    expect(toLinearSrgb[2][2]).toBeWithin(1.0429, 1e-3);
  });

  it('[PX4] white stays white whatever the primaries', () => {
    for (const row of matrixProfile(threeColourTags(adobeColorants, curveTag([563]))).toLinearSrgb) {
      expect(row[0] + row[1] + row[2]).toBeWithin(1, 5e-4); // s15Fixed16 rounding of nine numbers
    }
  });

  it('[PX4] curves: identity, a power, a table with straight lines between entries', () => {
    const [identity] = withCurve(curveTag([])).curves;
    expect(identity.isIdentity).toBe(true);
    expect(identity.lightOf(0.37)).toBe(0.37);
    const [power] = withCurve(curveTag([563])).curves;
    expect(power.isIdentity).toBe(false);
    expect(power.lightOf(0.5)).toBeWithin(0.5 ** (563 / 256), 1e-12);
    const [table] = withCurve(curveTag([0, 10000, 65535])).curves;
    expect(table.lightOf(0.25)).toBeWithin(5000 / 65535, 1e-12);
    expect(table.lightOf(0.75)).toBeWithin((10000 + 65535) / 2 / 65535, 1e-12);
    expect(table.lightOf(1)).toBe(1);
  });

  it('[PX4] a straight table is light, too', () => {
    expect(withCurve(curveTag([0, 16384, 32768, 49151, 65535])).curves[0].isIdentity).toBe(true);
  });

  it.each([
    [0, [2.2], 0.5, 0.5 ** 2.2],
    [1, [2, 1.5, -0.3], 0.6, (1.5 * 0.6 - 0.3) ** 2],
    [1, [2, 1.5, -0.3], 0.1, 0],
    [2, [2, 0.75, 0.125, 0.0625], 0.5, (0.75 * 0.5 + 0.125) ** 2 + 0.0625],
    [3, [2.4, 1 / 1.055, 0.055 / 1.055, 1 / 12.92, 0.04045], 0.02, 0.02 / 12.92],
    [3, [2.4, 1 / 1.055, 0.055 / 1.055, 1 / 12.92, 0.04045], 0.7, ((0.7 + 0.055) / 1.055) ** 2.4],
    [4, [3, 0.875, 0.0625, 0.5, 0.25, 0.03125, 0.015625], 0.125, 0.5 * 0.125 + 0.015625],
    [4, [3, 0.875, 0.0625, 0.5, 0.25, 0.03125, 0.015625], 0.75, (0.875 * 0.75 + 0.0625) ** 3 + 0.03125],
  ])('[PX4] parametric curve of kind %i with %j at %d', (kind, parameters, code, light) => {
    const [curve] = withCurve(parametricTag(kind, parameters)).curves;
    expect(curve.lightOf(code)).toBeWithin(light, 6e-5); // parameters are rounded to 1/65536, powers up to 3
  });

  it('[PX4] a grey profile has one curve', () => {
    const profile = readColourProfile(drawProfile('GRAY', { desc: descriptionTag('grey 1.8'), kTRC: curveTag([461]) }));
    expect(profile).toMatchObject({ kind: 'grey', name: 'grey 1.8' });
    expect(profile.kind === 'grey' && profile.curve.lightOf(0.4)).toBeWithin(0.4 ** (461 / 256), 1e-12);
  });

  it('[PX4] the name comes from either version of the description; a missing one is said', () => {
    const tags = threeColourTags(srgbColorants, curveTag([]), 'name of version two');
    expect(matrixProfile(tags).name).toBe('name of version two');
    expect(matrixProfile({ ...tags, desc: manyLanguagesTag('Größe Δ 4') }).name).toBe('Größe Δ 4');
    const { desc: _desc, ...nameless } = tags;
    expect(_desc.length).toBeGreaterThan(0);
    expect(matrixProfile(nameless).name).toBe('unnamed profile');
  });

  it('[PX4] look-up tables go before the matrix, and CMYK always needs them', () => {
    const tags = { ...threeColourTags(srgbColorants, curveTag([])), A2B0: new Uint8Array(40) };
    expect(readColourProfile(drawProfile('RGB ', tags))).toEqual({ kind: 'lut', name: 'drawn' });
    expect(readColourProfile(drawProfile('CMYK', { desc: descriptionTag('inks'), A2B0: new Uint8Array(40) }))).toEqual({
      kind: 'cmyk',
      name: 'inks',
    });
    expect(readColourProfile(drawProfile('CMYK', { desc: descriptionTag('inks') })).kind).toBe('broken');
  });

  it('[PX4] a profile cut anywhere, or with any byte changed, is read without stopping, and never gives NaN', () => {
    const whole = drawProfile('RGB ', threeColourTags(adobeColorants, parametricTag(0, [2.2])));
    const check = (bytes: Uint8Array): void => {
      const profile = readColourProfile(bytes);
      if (profile.kind !== 'matrix') return;
      expect(
        [...profile.toLinearSrgb.flat(), ...profile.curves.map((c) => c.lightOf(0.3))].every(Number.isFinite),
      ).toBe(true);
    };
    for (let length = 0; length < whole.length; length++) check(whole.slice(0, length));
    for (let at = 0; at < whole.length; at++) {
      for (const value of [0, 0x7f, 0xff]) {
        const changed = whole.slice();
        changed[at] = value;
        check(changed);
      }
    }
    expect(readColourProfile(whole.slice(0, whole.length - 1)).kind).toBe('broken');
    expect(readColourProfile(new Uint8Array(0)).kind).toBe('broken');
  });
});
