import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { adaptXyz } from '../../core/colour/adapt';
import { uv1976FromXyz, xyFromXyz, xyzFromXy } from '../../core/colour/chromaticity';
import { whiteD50, whiteD65 } from '../../core/colour/constants';
import { labFromXyz } from '../../core/colour/lab';
import type { Triple } from '../../core/colour/matrix3';
import {
  adobeRgbSpace,
  displayP3Space,
  rec2020Space,
  type RgbSpace,
  srgbSpace,
  xyzFromEncodedRgb,
} from '../../core/colour/spaces';
import { readPublished } from '../support/csv';

const spaces: Record<string, RgbSpace> = {
  srgb: srgbSpace,
  p3: displayP3Space,
  a98: adobeRgbSpace,
  rec2020: rec2020Space,
};
const numbersOf = (row: Record<string, string>, ...names: string[]): number[] => names.map((name) => Number(row[name]));
const tripleOf = (row: Record<string, string>, a: string, b: string, c: string): Triple => [
  Number(row[a]),
  Number(row[b]),
  Number(row[c]),
];

interface SpaceFacts {
  readonly primaries_xy: number[][];
  readonly white_xy: number[];
  readonly matrix_rgb_to_xyz_from_primaries: number[][];
  readonly matrix_xyz_to_rgb: number[][];
  readonly published_matrix: number[][];
}
const facts = (
  JSON.parse(readFileSync(fileURLToPath(new URL('data/03_rgb_spaces.json', import.meta.url)), 'utf8')) as {
    spaces: Record<string, SpaceFacts>;
  }
).spaces;

/** Every cell of a matrix: a transposed or shifted one must not pass by luck. */
function expectMatrix(found: readonly (readonly number[])[], expected: number[][], tolerance: number): void {
  expected.forEach((row, i) => row.forEach((value, j) => expect(found[i][j]).toBeWithin(value, tolerance)));
}

describe('03 RGB colour spaces', () => {
  test.each(Object.keys(spaces))('[CO4] %s: primaries, white and both matrices', (name) => {
    const space = spaces[name];
    expect(space.primaries.map(({ x, y }) => [x, y])).toEqual(facts[name].primaries_xy);
    expect([space.white.x, space.white.y]).toEqual(facts[name].white_xy);
    // ten decimals printed
    expectMatrix(space.xyzFromRgb, facts[name].matrix_rgb_to_xyz_from_primaries, 6e-11);
    expectMatrix(space.rgbFromXyz, facts[name].matrix_xyz_to_rgb, 6e-11);
    // printed in the standards with 4 or 5 decimals, some rounded from other roundings
    expectMatrix(space.xyzFromRgb, facts[name].published_matrix, 5e-5);
  });

  test('[CO3] transfer functions: 111 pairs, both ways', () => {
    const rows = readPublished('03_transfer_functions.csv');
    expect(rows).toHaveLength(111);
    for (const row of rows) {
      const { linearFromEncoded, encodedFromLinear } = spaces[row['space']].transfer;
      const [encoded, linear] = numbersOf(row, 'encoded_0_1', 'linear_0_1');
      // ten significant digits printed
      expect(linearFromEncoded(encoded)).toBeWithin(linear, 1e-9);
      // the two pieces of the sRGB standard miss each other by 3e-8 at the knee; near black Adobe RGB is without limit
      // steep, and the table's ten digits of linear light are worth less
      if (linear > 1e-3 || linear === 0) expect(encodedFromLinear(linear)).toBeWithin(encoded, 5e-8);
    }
  });

  test('[CO3] encoding, and the 8-bit code', () => {
    for (const row of readPublished('03_srgb_encode.csv')) {
      const linear = Number(row['linear_0_1']);
      const encoded = srgbSpace.transfer.encodedFromLinear(linear);
      expect(encoded).toBeWithin(Number(row['srgb_encoded_0_1']), 1e-9);
      expect(Math.round(255 * encoded)).toBe(Number(row['srgb_code_8bit_round']));
      expect(adobeRgbSpace.transfer.encodedFromLinear(linear)).toBeWithin(Number(row['adobe_encoded_0_1']), 1e-9);
    }
  });

  test("[CO1] [CO4] [CO5] XYZ, xy, u'v' and Lab of 43 colours; black has no chromaticity", () => {
    const rows = readPublished('03_rgb_colorimetry.csv');
    expect(rows).toHaveLength(43);
    for (const row of rows) {
      const xyz = xyzFromEncodedRgb(tripleOf(row, 'r', 'g', 'b'), spaces[row['space']]);
      // ten significant digits printed; codes are printed as fractions with ten digits too
      numbersOf(row, 'X', 'Y', 'Z').forEach((value, i) => expect(xyz[i]).toBeWithin(value, 2e-9));
      const { x, y } = xyFromXyz(xyz);
      const { uPrime, vPrime } = uv1976FromXyz(xyz);
      if (row['x'] === '') expect([x, y, uPrime, vPrime]).toEqual([NaN, NaN, NaN, NaN]);
      else {
        const expected = numbersOf(row, 'x', 'y', 'u_prime', 'v_prime');
        [x, y, uPrime, vPrime].forEach((value, i) => expect(value).toBeWithin(expected[i], 5e-9));
      }
      const d65 = xyzFromXy(whiteD65);
      const d50 = xyzFromXy(whiteD50);
      const lab65 = labFromXyz(xyz, d65);
      const lab50 = labFromXyz(adaptXyz(xyz, d65, d50, 'bradford'), d50);
      // 2e-6: another implementation's spread; D50 6e-5, from the rounding of its white
      numbersOf(row, 'L_D65', 'a_D65', 'b_D65').forEach((value, i) => expect(lab65[i]).toBeWithin(value, 2e-6));
      numbersOf(row, 'L_D50_bradford', 'a_D50_bradford', 'b_D50_bradford').forEach((value, i) =>
        expect(lab50[i]).toBeWithin(value, 6e-5),
      );
    }
  });

  test('[CO5] conversions published by two calculators', () => {
    const whites: Record<string, Triple> = { D65: [0.95047, 1, 1.08883], D50: [0.96422, 1, 0.82521] };
    for (const row of readPublished('03_published_conversions.csv')) {
      const input = tripleOf(row, 'in1', 'in2', 'in3');
      const lab = row['kind'].startsWith('srgb')
        ? labFromXyz(xyzFromEncodedRgb(input, srgbSpace), xyzFromXy(whiteD65))
        : labFromXyz([input[0] / 100, input[1] / 100, input[2] / 100], whites[row['kind'].slice(-3)]);
      numbersOf(row, 'out1', 'out2', 'out3').forEach((value, i) =>
        expect(lab[i]).toBeWithin(value, Number(row['tolerance'])),
      );
    }
  });
});
