import { describe, expect, test } from 'vitest';
import { uv1960FromXyz, uv1976FromXy, xyFromXyz } from '../../core/colour/chromaticity';
import { secondRadiationIlluminantAMK } from '../../core/colour/constants';
import { planckSpectrum, spectrumFromTable, xyzFromSpectrum } from '../../core/colour/spectra';
import { colourTemperatureOf } from '../../core/colour/temperature';
import { readPublished } from '../support/csv';

const illuminants = readPublished('02_illuminant_chromaticity.csv');
const columns = [
  ...['A', 'D65'].map((name) => ({ name, file: '02_spd_illuminants_5nm.csv' })),
  ...['LED-B1', 'LED-B2', 'LED-B4', 'LED-B5', 'LED-BH1', 'LED-V1'].map((name) => ({
    name,
    file: '02_spd_led_cie15_5nm.csv',
  })),
];

describe('02 spectra of the CIE illuminants', () => {
  test.each(columns)('[CO8] $name : the spectrum gives the published chromaticity', ({ name, file }) => {
    const rows = readPublished(file);
    const powerAt = new Map(rows.map((row) => [Number(row['wavelength_nm']), Number(row[`${name}_rel`])]));
    const expected = illuminants.find((row) => row['illuminant'] === name)!;
    const onGrid = xyFromXyz(xyzFromSpectrum((nm) => powerAt.get(nm) ?? 0));
    // six decimals printed
    expect(onGrid.x).toBeWithin(Number(expected['x_from_5nm_spd_380_780']), 6e-7);
    expect(onGrid.y).toBeWithin(Number(expected['y_from_5nm_spd_380_780']), 6e-7);
    const between = xyFromXyz(xyzFromSpectrum(spectrumFromTable([...powerAt.keys()], [...powerAt.values()])));
    // published with 4-5 decimals, and straight lines between 5 nm points bend the LED peaks by up to 2.7e-4 (measured)
    expect(between.x).toBeWithin(Number(expected['x_published']), 3e-4);
    expect(between.y).toBeWithin(Number(expected['y_published']), 3e-4);
  });

  test('[CO8] illuminant A is the black body of 2848 K with the older second radiation constant', () => {
    const temperatureOnOurScaleK = (2848 * 1.4388e-2) / secondRadiationIlluminantAMK;
    const spectrum = planckSpectrum(temperatureOnOurScaleK);
    for (const row of readPublished('02_spd_illuminants_5nm.csv')) {
      const nm = Number(row['wavelength_nm']);
      // six significant digits printed
      expect((100 * spectrum(nm)) / spectrum(560) / Number(row['A_rel'])).toBeWithin(1, 6e-6);
    }
  });

  test('[CO9] the colour temperature and Duv of every illuminant are those published', () => {
    expect(illuminants).toHaveLength(21);
    for (const row of illuminants) {
      const [x, y] = ['x_from_5nm_spd_380_780', 'y_from_5nm_spd_380_780'].map((name) => Number(row[name]));
      const found = colourTemperatureOf(uv1976FromXy({ x, y }))!;
      // x and y carry six decimals: up to 1e-4 of the temperature, 1e-6 of Duv; Duv itself six
      expect(found.cctK! / Number(row['cct_K_computed'])).toBeWithin(1, 1e-4);
      expect(found.duv).toBeWithin(Number(row['duv_computed']), 5e-6);
      // the fluorescent lamps' source rounds to 10 K
      if (row['cct_K_published'] !== '') expect(found.cctK!).toBeWithin(Number(row['cct_K_published']), 6.5);
    }
  });
});

describe('02 Planckian radiator', () => {
  test('[CO8] its chromaticity from 1000 to 20 000 K', () => {
    const rows = readPublished('02_planck_chromaticity.csv');
    expect(rows).toHaveLength(20);
    for (const row of rows) {
      const xyz = xyzFromSpectrum(planckSpectrum(Number(row['T_K'])));
      const { x, y } = xyFromXyz(xyz);
      const { u, v } = uv1960FromXyz(xyz);
      // six decimals printed
      for (const [name, value] of Object.entries({ x, y, u_1960: u, v_1960: v })) {
        expect(value).toBeWithin(Number(row[name]), 6e-7);
      }
      // an older table, with older constants and a coarser observer
      if (row['x_published_radiance'] !== '') {
        expect(x).toBeWithin(Number(row['x_published_radiance']), 1e-5);
        expect(y).toBeWithin(Number(row['y_published_radiance']), 1e-5);
      }
    }
  });

  test('[CO8] its radiance', () => {
    for (const row of readPublished('02_planck_radiance.csv')) {
      const radiance = planckSpectrum(Number(row['T_K']))(Number(row['wavelength_nm']));
      // the column's first constant is 3.741771e-16 / pi, five parts in 10^7 off the exact one used here
      expect(radiance / Number(row['L_c2_1.4388e-2_W_sr-1_m-3'])).toBeWithin(1, 1e-6);
      // c2 differs by 1.6e-6: 5e-4 of the radiance at 450 nm and 1500 K
      expect(radiance / Number(row['L_exact_constants_W_sr-1_m-3'])).toBeWithin(1, 5e-4);
    }
  });
});
