/**
 * Solves M x = r for a symmetric positive definite M (n x n, row by row; only the lower half is read); null when it is not.
 *
 * @source Cholesky's factorisation: common practice
 */
export function solveSymmetric(matrix: Float64Array, right: Float64Array): Float64Array | null {
  const n = right.length;
  const factor = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = matrix[i * n + j];
      for (let k = 0; k < j; k++) sum -= factor[i * n + k] * factor[j * n + k];
      if (i !== j) factor[i * n + j] = sum / factor[j * n + j];
      else if (sum > 1e-12 * matrix[i * n + i]) factor[i * n + i] = Math.sqrt(sum);
      else return null;
    }
  }
  const solution = right.slice();
  for (let i = 0; i < n; i++) {
    for (let k = 0; k < i; k++) solution[i] -= factor[i * n + k] * solution[k];
    solution[i] /= factor[i * n + i];
  }
  for (let i = n - 1; i >= 0; i--) {
    for (let k = i + 1; k < n; k++) solution[i] -= factor[k * n + i] * solution[k];
    solution[i] /= factor[i * n + i];
  }
  return solution;
}
