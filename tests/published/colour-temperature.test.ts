import { describe, expect, test } from 'vitest';
import { uv1976FromUv1960, uv1976FromXy } from '../../core/colour/chromaticity';
import { colourTemperatureOf } from '../../core/colour/temperature';
import { readPublished } from '../support/csv';

describe('05 correlated colour temperature and Duv', () => {
  test('[CO9] 48 points from 1500 to 15 000 K on both sides of the locus', () => {
    const rows = readPublished('05_cct_duv.csv');
    expect(rows).toHaveLength(48);
    for (const row of rows) {
      const found = colourTemperatureOf(uv1976FromUv1960({ u: Number(row['u_1960']), v: Number(row['v_1960']) }))!;
      const exactK = Number(row['cct_K']);
      // Ohno's method is good to 0.1 K or a few 1e-6; u and v carry seven decimals, worth 1e-5 of the hottest
      expect(found.cctK!).toBeWithin(exactK, Math.max(0.1, 2e-5 * exactK));
      expect(found.duv).toBeWithin(Number(row['duv']), 1.5e-6);
    }
  });

  test('[CO9] [CO10] the cases asserted by another library; no temperature beyond |Duv| 0.05', () => {
    for (const row of readPublished('05_ohno2013_cases.csv')) {
      const found = colourTemperatureOf(uv1976FromUv1960({ u: Number(row['u_1960']), v: Number(row['v_1960']) }))!;
      const duv = Number(row['duv_asserted']);
      expect(found.duv).toBeWithin(duv, 2e-6);
      if (Math.abs(duv) > 0.05) expect(found.cctK).toBeNull();
      else expect(found.cctK!).toBeWithin(Number(row['cct_K_asserted']), 0.1);
    }
  });

  test('[CO9] corners of the ANSI boxes: 1 and 2 above the locus, 3 and 4 below; centres on target', () => {
    const rows = readPublished('05_ansi_c78_377.csv');
    expect(rows).toHaveLength(31);
    for (const row of rows) {
      const found = colourTemperatureOf(uv1976FromXy({ x: Number(row['x']), y: Number(row['y']) }))!;
      expect(found.cctK!).toBeWithin(Number(row['cct_K_computed']), 0.2);
      // Duv printed with five decimals
      expect(found.duv).toBeWithin(Number(row['duv_computed']), 6e-6);
      if (row['kind'] !== 'centre') expect(found.duv > 0).toBe(/[12]$/.test(row['kind']));
      // the standard prints whole kelvin and three decimals; x and y carry four, worth up to 3 K
      else expect(found.cctK!).toBeWithin(Number(row['target_cct_K']), 3);
    }
  });
});
