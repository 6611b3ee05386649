import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  applyMatrix,
  diagonalMatrix,
  invertMatrix,
  type Matrix3,
  multiplyMatrices,
} from '../../../core/colour/matrix3';

const a: Matrix3 = [
  [1, 2, 3],
  [4, 5, 6],
  [7, 8, 10],
];
const b: Matrix3 = [
  [11, 12, 13],
  [14, 15, 17],
  [18, 19, 21],
];

describe('3 x 3 matrices', () => {
  test('applyMatrix takes rows times the column', () => {
    expect(applyMatrix(a, [20, 30, 41])).toEqual([203, 476, 790]);
  });

  test('multiplyMatrices lets the right one act first; every cell', () => {
    expect(multiplyMatrices(a, b)).toEqual([
      [93, 99, 110],
      [222, 237, 263],
      [369, 394, 437],
    ]);
  });

  test('diagonalMatrix scales each coordinate', () => {
    expect(applyMatrix(diagonalMatrix([2, 3, 5]), [7, 11, 13])).toEqual([14, 33, 65]);
  });

  test('invertMatrix undoes any matrix that is not near singular', () => {
    const cell = fc.double({ min: -4, max: 4, noNaN: true });
    const row = fc.tuple(cell, cell, cell);
    fc.assert(
      fc.property(fc.tuple(row, row, row), ([r1, r2, r3]) => {
        // 13 on the diagonal against at most 8 beside it: never near singular
        const m: Matrix3 = [
          [r1[0] + 13, r1[1], r1[2]],
          [r2[0], r2[1] + 13, r2[2]],
          [r3[0], r3[1], r3[2] + 13],
        ];
        const identity = multiplyMatrices(invertMatrix(m), m);
        identity.forEach((line, i) => line.forEach((value, j) => expect(value).toBeWithin(i === j ? 1 : 0, 1e-13)));
      }),
      { seed: 42, numRuns: 200 },
    );
  });

  test('a matrix without an inverse stops loudly', () => {
    const singular: Matrix3 = [
      [1, 2, 3],
      [2, 4, 6],
      [5, 7, 9],
    ];
    expect(() => invertMatrix(singular)).toThrow('no inverse');
    expect(() => invertMatrix(diagonalMatrix([NaN, 1, 2]))).toThrow(RangeError);
  });
});
