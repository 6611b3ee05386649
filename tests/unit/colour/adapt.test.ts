import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  adaptationMatrix,
  type AdaptationTransform,
  adaptXyz,
  coneMatrices,
  lmsFromXyz,
} from '../../../core/colour/adapt';
import { xyzFromXy } from '../../../core/colour/chromaticity';
import { whiteA, whiteD65 } from '../../../core/colour/constants';
import type { Triple } from '../../../core/colour/matrix3';

const transforms = Object.keys(coneMatrices) as AdaptationTransform[];
const lampWhite = xyzFromXy(whiteA);
const d65 = xyzFromXy(whiteD65);

test.each(transforms)('[CO6] %s: the source white becomes the target white, and light scales through', (transform) => {
  adaptXyz(lampWhite, lampWhite, d65, transform).forEach((value, i) => expect(value).toBeWithin(d65[i], 1e-14));
  const half: Triple = [lampWhite[0] / 2, 0.5, lampWhite[2] / 2];
  adaptXyz(half, lampWhite, d65, transform).forEach((value, i) => expect(value).toBeWithin(d65[i] / 2, 1e-14));
});

test.each(transforms)('[CO6] %s: there and back is the same colour; one white changes nothing', (transform) => {
  const part = fc.double({ min: 0, max: 2, noNaN: true });
  fc.assert(
    fc.property(part, part, part, (X, Y, Z) => {
      const there = adaptXyz([X, Y, Z], lampWhite, d65, transform);
      const back = adaptXyz(there, d65, lampWhite, transform);
      const same = adaptXyz([X, Y, Z], d65, d65, transform);
      [X, Y, Z].forEach((value, i) => {
        expect(back[i]).toBeWithin(value, 1e-12);
        expect(same[i]).toBeWithin(value, 1e-13);
      });
    }),
    { seed: 45, numRuns: 100 },
  );
});

test('[CO6] from a lamp to daylight a colour turns bluer, for every transform', () => {
  for (const transform of transforms) {
    const colour: Triple = [0.4, 0.37, 0.11];
    expect(adaptXyz(colour, lampWhite, d65, transform)[2]).toBeGreaterThan(2 * colour[2]);
  }
});

test('[CO6] a white without light stops loudly', () => {
  expect(() => adaptationMatrix([0, 0, 0], d65, 'cat16')).toThrow(RangeError);
  expect(() => adaptationMatrix([NaN, 1, 0.4], d65, 'bradford')).toThrow(RangeError);
});

test('cone responses are equal for D65, and long waves lead for red light', () => {
  const [l, m, s] = lmsFromXyz(d65);
  // the matrix is normalised to another rounding of D65: 1e-3
  expect(Math.max(l, m, s) - Math.min(l, m, s)).toBeLessThan(1e-3);
  const red = lmsFromXyz([0.41, 0.21, 0.02]);
  expect(red[0]).toBeGreaterThan(1.5 * red[1]);
});
