import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  uv1960FromXyz,
  uv1976FromUv1960,
  uv1976FromXy,
  uv1976FromXyz,
  xyFromUv1976,
  xyFromXyz,
  xyzFromXy,
} from '../../../core/colour/chromaticity';
import { iccD50Xyz, whiteA, whiteC, whiteD50, whiteD65, whiteE } from '../../../core/colour/constants';
import { labFromXyz, xyzFromLab } from '../../../core/colour/lab';
import type { Triple } from '../../../core/colour/matrix3';
import {
  adobeRgbSpace,
  displayP3Space,
  encodedRgbFromXyz,
  linearSrgbFromXyz,
  rec2020Space,
  srgbSpace,
  xyzFromEncodedRgb,
  xyzFromLinearSrgb,
} from '../../../core/colour/spaces';
import { workedExamples } from '../../support/worked-examples';

const spaces = [srgbSpace, displayP3Space, adobeRgbSpace, rec2020Space];
/** Edges, the knees of the curves, and places outside the gamut. */
const levels = [-0.2, 0, 1e-6, 0.0031308, 0.04045, 0.081, 0.37, 0.8, 1, 1.3];
const grid: Triple[] = levels.flatMap((r) => levels.flatMap((g) => levels.map((b): Triple => [r, g, b])));
const light = fc.double({ min: 1e-3, max: 10, noNaN: true });

function expectTriple(found: Triple, expected: Triple, tolerance: number): void {
  found.forEach((value, i) => expect(value).toBeWithin(expected[i], tolerance));
}

describe('RGB spaces', () => {
  test.each(spaces)('[CO3] [CO4] $name: encoded to XYZ and back on a grid with edges', (space) => {
    // 3e-8 is the gap of the sRGB curve's two pieces at the knee; Adobe RGB turns noise of 1e-17 at black into 6e-8
    for (const rgb of grid) expectTriple(encodedRgbFromXyz(xyzFromEncodedRgb(rgb, space), space), rgb, 1e-7);
  });

  test.each(spaces)('[CO4] $name: full codes give the white, Y = 1; red raises X most, blue Z', (space) => {
    expectTriple(xyzFromEncodedRgb([1, 1, 1], space), xyzFromXy(space.white), 1e-15);
    expect(xyFromXyz(xyzFromEncodedRgb([0.4, 0, 0], space)).x).toBeWithin(space.primaries[0].x, 1e-15);
    expect(xyFromXyz(xyzFromEncodedRgb([0, 0.5, 0], space)).y).toBeWithin(space.primaries[1].y, 1e-15);
    expect(xyFromXyz(xyzFromEncodedRgb([0, 0, 0.6], space)).x).toBeWithin(space.primaries[2].x, 1e-15);
  });

  test.each(spaces)('[CO3] $name: the curve rises, is mirrored about 0, and keeps 0 and 1', ({ transfer }) => {
    const { linearFromEncoded } = transfer;
    for (let code = 1; code <= 255; code++) {
      expect(linearFromEncoded(code / 255)).toBeGreaterThan(linearFromEncoded((code - 1) / 255));
      expect(linearFromEncoded(-code / 255)).toBe(-linearFromEncoded(code / 255));
    }
    expect(linearFromEncoded(0)).toBe(0);
    expect(linearFromEncoded(1)).toBeWithin(1, 1e-15);
    expect(linearFromEncoded(NaN)).toBeNaN();
  });

  test('[CO4] linear sRGB to XYZ is linear and undone by its inverse, outside the gamut too', () => {
    for (const rgb of grid) expectTriple(linearSrgbFromXyz(xyzFromLinearSrgb(rgb)), rgb, 1e-14);
    const twice = xyzFromLinearSrgb([0.6, 0.2, 1.4]);
    expectTriple(xyzFromLinearSrgb([0.3, 0.1, 0.7]), [twice[0] / 2, twice[1] / 2, twice[2] / 2], 1e-15);
  });

  test.each(workedExamples<{ code: number }, { linear: number }>('srgb-'))('[CO3] $id', (example) => {
    const linear = srgbSpace.transfer.linearFromEncoded(example.input.code / 255);
    expect(linear).toBeWithin(example.expected.linear, example.tolerance as number);
  });

  test.each(workedExamples<{ rgb: Triple }, { XYZ: Triple; u_v_prime: [number, number] }>('xyz-'))(
    '[CO1] [CO4] $id',
    ({ input, expected, tolerance }) => {
      const [r, g, b] = input.rgb;
      const xyz = xyzFromEncodedRgb([r / 255, g / 255, b / 255], srgbSpace);
      const allowed = tolerance as { XYZ: number; u_v_prime: number };
      expectTriple(xyz, expected.XYZ, allowed.XYZ);
      const { uPrime, vPrime } = uv1976FromXyz(xyz);
      expect(uPrime).toBeWithin(expected.u_v_prime[0], allowed.u_v_prime);
      expect(vPrime).toBeWithin(expected.u_v_prime[1], allowed.u_v_prime);
    },
  );
});

describe('chromaticity', () => {
  test('[CO1] does not change with the amount of light', () => {
    fc.assert(
      fc.property(light, light, light, light, (X, Y, Z, scale) => {
        const more: Triple = [scale * X, scale * Y, scale * Z];
        const [one, other] = [xyFromXyz([X, Y, Z]), xyFromXyz(more)];
        expect([other.x - one.x, other.y - one.y].map(Math.abs).every((d) => d < 1e-14)).toBe(true);
        const [uv, uvMore] = [uv1976FromXyz([X, Y, Z]), uv1976FromXyz(more)];
        expect(uvMore.uPrime).toBeWithin(uv.uPrime, 1e-14);
        expect(uvMore.vPrime).toBeWithin(uv.vPrime, 1e-14);
      }),
      { seed: 43, numRuns: 200 },
    );
  });

  test("[CO1] xy, u'v' and uv agree with each other, both ways", () => {
    fc.assert(
      fc.property(light, light, light, (X, Y, Z) => {
        const xy = xyFromXyz([X, Y, Z]);
        expectTriple(xyzFromXy(xy, Y), [X, Y, Z], 1e-9); // X up to 10 at y down to 5e-5
        const uv = uv1976FromXyz([X, Y, Z]);
        const back = xyFromUv1976(uv);
        const across = uv1976FromXy(xy);
        const round = uv1976FromUv1960(uv1960FromXyz([X, Y, Z]));
        for (const [found, expected] of [
          [back.x, xy.x],
          [back.y, xy.y],
          [across.uPrime, uv.uPrime],
          [across.vPrime, uv.vPrime],
          [round.uPrime, uv.uPrime],
          [round.vPrime, uv.vPrime],
        ]) {
          expect(found).toBeWithin(expected, 1e-12);
        }
      }),
      { seed: 44, numRuns: 200 },
    );
  });

  test('[CO2] black has none: NaN, never 0', () => {
    expect(xyFromXyz([0, 0, 0])).toEqual({ x: NaN, y: NaN });
    expect(uv1976FromXyz([0, 0, 0])).toEqual({ uPrime: NaN, vPrime: NaN });
    expect(uv1960FromXyz([0, 0, 0])).toEqual({ u: NaN, v: NaN });
    expect(() => xyzFromXy({ x: 0.7, y: 0 })).toThrow(RangeError);
    expect(() => xyzFromXy({ x: NaN, y: NaN })).toThrow(RangeError);
  });

  test('the whites lie where their names say: A is the yellowest, C the bluest', () => {
    expect([whiteA, whiteD50, whiteE, whiteD65, whiteC].map(({ x }) => x)).toEqual([
      0.44757,
      0.3457,
      1 / 3,
      0.3127,
      0.31006,
    ]);
    // the 16.16 numbers of ICC files are within half a unit of the printed four decimals
    expectTriple(iccD50Xyz, [0.9642, 1, 0.8249], 0.6 / 65536);
  });
});

describe('Lab', () => {
  const whites: Triple[] = [xyzFromXy(whiteD65), xyzFromXy(whiteA), iccD50Xyz, [109.85, 100, 35.585]];

  test('[CO5] and back under four whites, from black over the knee to twice the white', () => {
    for (const white of whites) {
      for (const share of [0, 1e-5, 216 / 24389, 0.0089, 0.18, 1, 2]) {
        const xyz: Triple = [share * white[0], share * white[1] * 0.9, share * white[2] * 1.2];
        expectTriple(xyzFromLab(labFromXyz(xyz, white), white), xyz, 1e-12 * white[1]);
      }
    }
  });

  test('[CO5] the white is 100, 0, 0 and black 0, 0, 0 under any white; greys have no colour', () => {
    for (const white of whites) {
      expectTriple(labFromXyz(white, white), [100, 0, 0], 1e-12);
      expectTriple(labFromXyz([0, 0, 0], white), [0, 0, 0], 1e-12);
      const [, a, b] = labFromXyz([0.3 * white[0], 0.3 * white[1], 0.3 * white[2]], white);
      expect(Math.abs(a) + Math.abs(b)).toBeLessThan(1e-12);
    }
  });

  test('[CO5] redder raises a*, bluer lowers b*; another white is another answer', () => {
    const white = whites[0];
    const red = labFromXyz(xyzFromLinearSrgb([0.6, 0.2, 0.2]), white);
    const blue = labFromXyz(xyzFromLinearSrgb([0.2, 0.21, 0.7]), white);
    expect(red[1]).toBeGreaterThan(20);
    expect(blue[2]).toBeLessThan(-20);
    expect(
      Math.abs(labFromXyz([0.4, 0.35, 0.2], whites[1])[2] - labFromXyz([0.4, 0.35, 0.2], white)[2]),
    ).toBeGreaterThan(10);
  });
});
