import { describe, expect, test } from 'vitest';
import { uv1976FromXy, xyFromXyz } from '../../core/colour/chromaticity';
import { xyOfWavelength } from '../../core/colour/dominant-wavelength';
import { cie1931Observer, xyzFromSpectrum } from '../../core/colour/spectra';
import { readPublished } from '../support/csv';

describe('01 colour-matching functions', () => {
  test('[CO8] the shipped table holds every published value of the 5 nm table, and V is y-bar', () => {
    const { xBar, yBar, zBar } = cie1931Observer();
    const rows = readPublished('01_cmf_cie1931_2deg_and_V.csv');
    expect(rows).toHaveLength(81);
    for (const row of rows) {
      const i = Number(row['wavelength_nm']) - 360;
      expect([xBar[i], yBar[i], zBar[i]], row['wavelength_nm']).toEqual(
        ['xbar', 'ybar', 'zbar'].map((name) => Number(row[name])),
      );
      // 5e-13: two carriers of one table, rounded apart
      expect(Number(row['V_lambda'])).toBeWithin(yBar[i], 1e-12);
    }
  });

  test('[CO8] the sums over the table are those published, so that no row is mistyped', () => {
    for (const row of readPublished('01_cmf_integrals.csv')) {
      const [step, from, to] = ['step_nm', 'from_nm', 'to_nm'].map((name) => Number(row[name]));
      const sums = xyzFromSpectrum((nm) => (nm >= from && nm <= to && (nm - from) % step === 0 ? step : 0));
      // half of the last digit printed
      expect(sums[0]).toBeWithin(Number(row['sum_xbar_times_step']), 5.1e-7);
      expect(sums[1]).toBeWithin(Number(row['sum_ybar_times_step']), 5.1e-7);
      expect(sums[2]).toBeWithin(Number(row['sum_zbar_times_step']), 5.1e-7);
      const { x, y } = xyFromXyz(sums);
      expect(x).toBeWithin(Number(row['x_equal_energy']), 5.1e-11);
      expect(y).toBeWithin(Number(row['y_equal_energy']), 5.1e-11);
    }
  });
});

test('07 [CO12] the spectral locus has the published chromaticities', () => {
  const rows = readPublished('07_spectral_locus.csv');
  expect(rows).toHaveLength(21);
  for (const row of rows) {
    const xy = xyOfWavelength(Number(row['wavelength_nm']));
    const { uPrime, vPrime } = uv1976FromXy(xy);
    // half of the fifth decimal printed
    for (const [name, value] of Object.entries({ x: xy.x, y: xy.y, u_prime: uPrime, v_prime: vPrime })) {
      expect(value).toBeWithin(Number(row[name]), 5.1e-6);
    }
  }
});
