import { expect, test } from 'vitest';
import { dominantWavelengthOf } from '../../core/colour/dominant-wavelength';
import { readPublished } from '../support/csv';

test('07 [CO12] dominant wavelength and excitation purity under four whites', () => {
  const rows = readPublished('07_dominant_wavelength.csv');
  expect(rows).toHaveLength(31);
  for (const row of rows) {
    const [x, y, whiteX, whiteY] = ['x', 'y', 'x_white', 'y_white'].map((name) => Number(row[name]));
    const found = dominantWavelengthOf({ x, y }, { x: whiteX, y: whiteY })!;
    // tolerances of the table: near red the locus is nearly straight and crowded
    expect(found.wavelengthNm).toBeWithin(Number(row['dominant_nm']), Number(row['tol_nm']));
    expect(found.purity).toBeWithin(Number(row['excitation_purity']), Number(row['tol_purity']));
    expect(found.isComplementary).toBe(row['is_complementary'] === '1');
  }
});
