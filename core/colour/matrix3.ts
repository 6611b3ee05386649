/** Three numbers of one colour: R G B, X Y Z, L M S or L* a* b*, as the function's name says. */
export type Triple = readonly [number, number, number];

/** A 3 x 3 matrix, row by row. */
export type Matrix3 = readonly [Triple, Triple, Triple];

/**
 * Matrix times column: row i of the result is m[i] . t.
 *
 * @source common practice
 */
export function applyMatrix(m: Matrix3, t: Triple): Triple {
  return [
    m[0][0] * t[0] + m[0][1] * t[1] + m[0][2] * t[2],
    m[1][0] * t[0] + m[1][1] * t[1] + m[1][2] * t[2],
    m[2][0] * t[0] + m[2][1] * t[1] + m[2][2] * t[2],
  ];
}

/** Rows become columns. */
function transposed(m: Matrix3): Matrix3 {
  return [
    [m[0][0], m[1][0], m[2][0]],
    [m[0][1], m[1][1], m[2][1]],
    [m[0][2], m[1][2], m[2][2]],
  ];
}

/**
 * Product a b: applying it is applying b first, then a.
 *
 * @source common practice
 */
export function multiplyMatrices(a: Matrix3, b: Matrix3): Matrix3 {
  const columns = transposed(b);
  return transposed([applyMatrix(a, columns[0]), applyMatrix(a, columns[1]), applyMatrix(a, columns[2])]);
}

/** Cross product; row of the adjugate. */
function crossed(a: Triple, b: Triple): Triple {
  return [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
}

/**
 * Inverse by the adjugate over the determinant.
 *
 * @throws RangeError when the determinant is 0 or not a number: no inverse exists
 * @source common practice (Cramer's rule)
 */
export function invertMatrix(m: Matrix3): Matrix3 {
  const [a, b, c] = m;
  const columns = [crossed(b, c), crossed(c, a), crossed(a, b)] as const;
  const determinant = a[0] * columns[0][0] + a[1] * columns[0][1] + a[2] * columns[0][2];
  if (!(Math.abs(determinant) > 0)) throw new RangeError(`matrix has no inverse: determinant ${determinant}`);
  const scaled = columns.map((column) => column.map((value) => value / determinant));
  return transposed(scaled as unknown as Matrix3);
}

/**
 * Diagonal matrix.
 *
 * @source common practice
 */
export function diagonalMatrix(t: Triple): Matrix3 {
  return [
    [t[0], 0, 0],
    [0, t[1], 0],
    [0, 0, t[2]],
  ];
}
