import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Plane } from '../../../core/base/plane';
import { linearFromSrgb } from '../../../core/colour/transfer';
import { hatWeight, mergeBracket } from '../../../core/photo/bracket';
import { workedExamples } from '../../support/worked-examples';

const line = (values: readonly number[]): Plane => ({
  width: values.length,
  height: 1,
  values: Float32Array.from(values),
});

describe('mergeBracket', () => {
  it.each(
    workedExamples<{ codes: number[]; exposures: number[] }, { E: number }>('merge').map((e) => [e.id, e] as const),
  )('[LU8] %s', (_, { input, expected }) => {
    const frames = input.codes.map((code, i) => ({
      code255: line([code]),
      light: line([linearFromSrgb(code / 255)]),
      relExposure: input.exposures[i],
    }));
    expect(mergeBracket(frames).values[0]).toBeWithin(expected.E, 5e-7 + 1e-8); // six decimals
  });

  it.each([
    [4, 4],
    [3.99, 0],
    [127.5, 127.5],
    [251, 4],
    [251.01, 0],
    [NaN, 0],
  ])('[LU8] code %d weighs %d', (code, weight) => expect(hatWeight(code)).toBe(weight));

  it('[LU8] true light comes back from any exposures; cells that no photo holds are NaN', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 0.02, max: 0.2, noNaN: true }), { minLength: 3, maxLength: 9 }),
        (lights) => {
          const frames = [0.5, 1.3, 4].map((relExposure) => ({
            code255: line([...lights.map((light) => 255 * light * relExposure), 255]),
            light: line([...lights.map((light) => light * relExposure), 1]),
            relExposure,
          }));
          const { values } = mergeBracket(frames);
          lights.forEach((light, i) => expect(values[i] / light).toBeWithin(1, 1e-6)); // float cells
          expect(values[lights.length]).toBeNaN();
        },
      ),
      { seed: 11, numRuns: 30 },
    );
  });

  it('[LU8] no photos, or no exposure: stops loudly', () => {
    expect(() => mergeBracket([])).toThrow('no photos');
    expect(() => mergeBracket([{ code255: line([50]), light: line([0.2]), relExposure: 0 }])).toThrow(
      'not an exposure',
    );
  });
});
