import { expect, test } from 'vitest';
import { deltaE00, deltaE76 } from '../../core/colour/difference';
import type { Triple } from '../../core/colour/matrix3';
import { readPublished } from '../support/csv';

const labOf = (row: Record<string, string>, which: 1 | 2): Triple => [
  Number(row[`L${which}`]),
  Number(row[`a${which}`]),
  Number(row[`b${which}`]),
];

test('04 [CO7] CIEDE2000: all 34 pairs of Sharma, Wu and Dalal, in both orders', () => {
  const rows = readPublished('04_ciede2000_sharma.csv');
  expect(rows.map((row) => Number(row['pair']))).toEqual(Array.from({ length: 34 }, (_, i) => i + 1));
  for (const row of rows) {
    const [a, b] = [labOf(row, 1), labOf(row, 2)];
    // four decimals printed; pairs 10 and 14 lie on the tie of opposite hues
    expect(deltaE00(a, b)).toBeWithin(Number(row['deltaE00']), 5.1e-5);
    expect(deltaE00(b, a)).toBeWithin(Number(row['deltaE00']), 5.1e-5);
  }
});

test('04 [CO7] CIE76 and CIEDE2000 of 17 cases to ten digits', () => {
  const rows = readPublished('04_deltaE_76_94_00.csv');
  expect(rows).toHaveLength(17);
  for (const row of rows) {
    const [a, b] = [labOf(row, 1), labOf(row, 2)];
    expect(deltaE76(a, b)).toBeWithin(Number(row['deltaE76']), 1e-9 * Number(row['deltaE76']));
    expect(deltaE00(a, b)).toBeWithin(Number(row['deltaE00']), 1e-9 * Number(row['deltaE00']));
  }
});
