/** A 3x3 matrix, row by row. */
export type Matrix3 = readonly [
  readonly [number, number, number],
  readonly [number, number, number],
  readonly [number, number, number],
];
/** Three numbers: X Y Z, red green blue, L M S, or L* a* b*. */
export type Triple = readonly [number, number, number];

/** Matrix times column vector. */
export function applyMatrix(m: Matrix3, [a, b, c]: Triple): Triple {
  return [
    m[0][0] * a + m[0][1] * b + m[0][2] * c,
    m[1][0] * a + m[1][1] * b + m[1][2] * c,
    m[2][0] * a + m[2][1] * b + m[2][2] * c,
  ];
}

/** a times b: first b acts, then a. */
export function multiplyMatrices(a: Matrix3, b: Matrix3): Matrix3 {
  const columns = [0, 1, 2].map((j) => applyMatrix(a, [b[0][j], b[1][j], b[2][j]]));
  const row = (i: 0 | 1 | 2): Triple => [columns[0][i], columns[1][i], columns[2][i]];
  return [row(0), row(1), row(2)];
}

/** Inverse by cofactors. Throws RangeError for a singular matrix. */
export function invertMatrix(m: Matrix3): Matrix3 {
  const cofactor = (i: number, j: number): number => {
    const r = [(i + 1) % 3, (i + 2) % 3];
    const c = [(j + 1) % 3, (j + 2) % 3];
    return m[r[0]][c[0]] * m[r[1]][c[1]] - m[r[0]][c[1]] * m[r[1]][c[0]];
  };
  const determinant = m[0][0] * cofactor(0, 0) + m[0][1] * cofactor(0, 1) + m[0][2] * cofactor(0, 2);
  if (!(Math.abs(determinant) > 1e-300)) throw new RangeError('the matrix has no inverse');
  const row = (i: number): Triple => [0, 1, 2].map((j) => cofactor(j, i) / determinant) as unknown as Triple;
  return [row(0), row(1), row(2)];
}

/** A matrix that scales each coordinate by its own factor. */
export function diagonalMatrix([a, b, c]: Triple): Matrix3 {
  return [
    [a, 0, 0],
    [0, b, 0],
    [0, 0, c],
  ];
}
