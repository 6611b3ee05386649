import { describe, expect, test } from 'vitest';
import { adaptXyz } from '../../core/colour/adapt';
import { xyFromXyz, xyzFromXy } from '../../core/colour/chromaticity';
import { whiteD50, whiteD65 } from '../../core/colour/constants';
import { labFromXyz, xyzFromLab } from '../../core/colour/lab';
import type { Triple } from '../../core/colour/matrix3';
import { linearSrgbFromXyz, xyzFromLinearSrgb } from '../../core/colour/spaces';
import { srgbFromLinear } from '../../core/colour/transfer';
import { readPublished } from '../support/csv';

const chart = readPublished('08_colorchecker24.csv');
/** The white of the table: ICC D50 as printed, not its 16-bit form. */
const chartWhite: Triple = [0.9642, 1, 0.82491];
const d65 = xyzFromXy(whiteD65);
const valuesOf = (row: Record<string, string>, ...names: string[]): number[] => names.map((name) => Number(row[name]));

describe('08 the 24 patches of the colour chart', () => {
  const before2014 = chart.filter((row) => row['edition'] === 'before_2014-11');

  test('[CO4] [CO5] [CO6] Lab (D50) to linear sRGB by Bradford, its 8-bit codes, and back', () => {
    expect(before2014).toHaveLength(24);
    for (const row of before2014) {
      const lab = valuesOf(row, 'L_D50', 'a_D50', 'b_D50') as unknown as Triple;
      const linear = linearSrgbFromXyz(adaptXyz(xyzFromLab(lab, chartWhite), chartWhite, d65, 'bradford'));
      // six decimals printed; the table's D65 white may be rounded, worth 1e-5
      valuesOf(row, 'R_lin', 'G_lin', 'B_lin').forEach((value, i) => expect(linear[i]).toBeWithin(value, 2e-5));
      const codes = linear.map((value) => Math.round(255 * Math.min(1, Math.max(0, srgbFromLinear(value)))));
      expect(codes.join('-'), row['name']).toBe(row['srgb8_computed']);
      expect(linear.every((value) => value >= 0 && value <= 1)).toBe(row['in_srgb_gamut'] === '1');
      const back = labFromXyz(adaptXyz(xyzFromLinearSrgb(linear), d65, chartWhite, 'bradford'), chartWhite);
      back.forEach((value, i) => expect(value).toBeWithin(lab[i], 1e-10)); // own inverse: rounding only
    }
  });

  test('[CO5] the 2005 edition: Lab and xyY agree', () => {
    const rows = chart.filter((row) => row['edition'] === '2005');
    expect(rows).toHaveLength(24);
    const white = xyzFromXy(whiteD50);
    for (const row of rows) {
      const xyz = xyzFromLab(valuesOf(row, 'L_D50', 'a_D50', 'b_D50') as unknown as Triple, white);
      const { x, y } = xyFromXyz(xyz);
      const [expectedX, expectedY, expectedLuminance] = valuesOf(row, 'x', 'y', 'Y');
      // four decimals of independent measurement prints; dark patches round worst
      expect(x).toBeWithin(expectedX, 4e-4);
      expect(y).toBeWithin(expectedY, 4e-4);
      expect(xyz[1]).toBeWithin(expectedLuminance, 2e-4);
    }
  });
});
