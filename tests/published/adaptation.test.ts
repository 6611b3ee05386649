import { describe, expect, test } from 'vitest';
import { adaptationMatrix, type AdaptationTransform, adaptXyz, coneMatrices } from '../../core/colour/adapt';
import type { Triple } from '../../core/colour/matrix3';
import { readPublished } from '../support/csv';

const transforms: Record<string, AdaptationTransform> = {
  Bradford: 'bradford',
  CAT02: 'cat02',
  CAT16: 'cat16',
  VonKries_HPE_D65: 'vonKriesHpe',
};
const tripleOf = (row: Record<string, string>, a: string, b: string, c: string): Triple => [
  Number(row[a]),
  Number(row[b]),
  Number(row[c]),
];
const cellsOf = (row: Record<string, string>): number[] =>
  [1, 2, 3].flatMap((i) => [1, 2, 3].map((j) => Number(row[`m${i}${j}`])));

describe('06 chromatic adaptation', () => {
  const rows = readPublished('06_cat_matrices.csv');

  test('[CO6] the four cone matrices', () => {
    const given = rows.filter((row) => row['kind'] === 'cone_matrix');
    expect(given.map((row) => coneMatrices[transforms[row['transform']]].flat())).toEqual(given.map(cellsOf));
    expect(given).toHaveLength(4);
  });

  test('[CO6] source to destination: every cell of 19 matrices', () => {
    const given = rows.filter((row) => row['kind'] !== 'cone_matrix');
    expect(given).toHaveLength(19);
    for (const row of given) {
      const found = adaptationMatrix(
        tripleOf(row, 'Xs', 'Ys', 'Zs'),
        tripleOf(row, 'Xd', 'Yd', 'Zd'),
        transforms[row['transform']],
      ).flat();
      // as published, and ten digits where computed
      cellsOf(row).forEach((cell, i) => expect(found[i]).toBeWithin(cell, Math.max(2e-9, Number(row['tolerance']))));
    }
  });

  test('[CO6] colours carried from one white to another', () => {
    for (const row of readPublished('06_cat_samples.csv')) {
      const found = adaptXyz(
        tripleOf(row, 'X', 'Y', 'Z'),
        tripleOf(row, 'Xs', 'Ys', 'Zs'),
        tripleOf(row, 'Xd', 'Yd', 'Zd'),
        transforms[row['transform']],
      );
      // eight decimals printed
      tripleOf(row, 'X_out', 'Y_out', 'Z_out').forEach((value, i) => expect(found[i]).toBeWithin(value, 1e-8));
    }
  });
});
