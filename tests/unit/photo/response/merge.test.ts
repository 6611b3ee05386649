import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { linearFromSrgb } from '../../../../core/colour/transfer';
import { hatWeight } from '../../../../core/photo/response/hat-weight';
import { mergeChannel, mergedLight } from '../../../../core/photo/response/merge';
import { workedExamples } from '../../../support/worked-examples';

const grey = (codes: readonly number[]): Uint8Array => Uint8Array.from(codes.flatMap((code) => [code, code, code]));
const identity = (code: number): number => code;

describe('mergeChannel', () => {
  it.each(
    workedExamples<{ codes: number[]; exposures: number[] }, { E: number }>('merge').map((e) => [e.id, e] as const),
  )('[LU8] %s', (_, { input, expected }) => {
    const frames = input.codes.map((code, i) => ({ codes: grey([code]), relExposure: input.exposures[i] }));
    expect(mergeChannel(frames, 1, linearFromSrgb)[0]).toBeWithin(expected.E, 5e-7 + 1e-8); // six decimals
  });

  it.each([
    [4, 4],
    [3.99, 0],
    [127.5, 127.5],
    [251, 4],
    [251.01, 0],
    [NaN, 0],
  ])('[LU8] code %d weighs %d', (code, weight) => expect(hatWeight(code)).toBe(weight));

  it('[LU8] true light comes back from any exposures, in 8 and 16 bits', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 0.02, max: 0.2, noNaN: true }), { minLength: 3, maxLength: 9 }),
        (lights) => {
          const frames = [0.5, 1.3, 4].map((relExposure) => ({
            codes: Uint16Array.from(lights.flatMap((light) => [0, 0, Math.round(65535 * light * relExposure)])),
            relExposure,
          }));
          const merged = mergeChannel(frames, 2, identity);
          lights.forEach((light, i) => expect(merged[i] / light).toBeWithin(1, 5e-4)); // half a code of 655 at least
        },
      ),
      { seed: 11, numRuns: 4 },
    );
  });

  it('[LU8] too dark in all: the longest exposure tells; clipped in all: at least what the shortest says', () => {
    const frames = [
      { codes: grey([0, 255]), relExposure: 1 },
      { codes: grey([2, 255]), relExposure: 4 },
    ];
    const merged = mergeChannel(frames, 0, identity);
    expect(merged[0]).toBeWithin(2 / 255 / 4, 1e-8); // float cells
    expect(merged[1]).toBe(1);
  });

  it('[LU8] no photos, other sizes, or no exposure: stops loudly', () => {
    expect(() => mergeChannel([], 0, identity)).toThrow('no photos');
    const one = { codes: grey([50]), relExposure: 1 };
    expect(() => mergeChannel([one, { codes: grey([50, 60]), relExposure: 2 }], 0, identity)).toThrow('differ in size');
    expect(() => mergeChannel([{ ...one, relExposure: 0 }], 0, identity)).toThrow('not an exposure');
  });
});

describe('mergedLight', () => {
  const meaning = { curves: [identity, identity, identity], matrix: null, codesAreLight: false } as const;
  const blocks = { by: 1, regionWidth: 2, width: 2, height: 1 };

  it('[LU8] light is in the unit of the exposure asked for, beyond 1 where only shorter photos hold it', () => {
    const frames = [
      { codes: grey([102, 51]), relExposure: 1 },
      { codes: grey([255, 204]), relExposure: 4 },
    ];
    const { rgb, flags } = mergedLight(frames, meaning, 4, blocks);
    expect(Array.from(rgb, (value) => Math.round(1000 * value) / 1000)).toEqual([1.6, 1.6, 1.6, 0.8, 0.8, 0.8]);
    expect([...flags]).toEqual([0, 0]);
  });

  it('[LU8] [PX3] clipped is what the shortest exposure has clipped, outside the colour space what the longest shows', () => {
    const frames = [
      { codes: Uint8Array.from([255, 120, 0, 30, 20, 0]), relExposure: 1 },
      { codes: Uint8Array.from([255, 240, 30, 60, 40, 1]), relExposure: 2 },
    ];
    expect([...mergedLight(frames, meaning, 1, blocks).flags]).toEqual([1, 8]);
  });

  it('[LU8] blocks hold means of light and any flag', () => {
    const frames = [{ codes: grey([102, 255, 102, 51]), relExposure: 1 }];
    const { rgb, flags } = mergedLight(frames, meaning, 1, { by: 2, regionWidth: 2, width: 1, height: 1 });
    expect(rgb[0]).toBeWithin(0.5, 1e-6); // (0.4 + 1 + 0.4 + 0.2) / 4
    expect([...flags]).toEqual([7]);
  });
});
