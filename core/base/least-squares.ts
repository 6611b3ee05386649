import { solveSymmetric } from './solve-symmetric';

export interface FitProblem {
  /** Residuals at given parameters. */
  readonly residualsOf: (parameters: Float64Array) => Float64Array;
  readonly lower: Float64Array;
  readonly upper: Float64Array;
}

export interface Fitted {
  readonly parameters: Float64Array;
  readonly cost: number;
  /** J'J at the solution, row by row. */
  readonly normal: Float64Array;
}

const mostSteps = 60;
const differenceStep = 1e-5;

const costOf = (residuals: Float64Array): number => residuals.reduce((sum, r) => sum + r * r, 0);

function normalEquations(problem: FitProblem, parameters: Float64Array, residuals: Float64Array) {
  const n = parameters.length;
  const columns = Array.from({ length: n }, (_, k) => {
    const moved = parameters.slice();
    moved[k] += differenceStep;
    const other = problem.residualsOf(moved);
    return other.map((value, i) => (value - residuals[i]) / differenceStep);
  });
  const normal = new Float64Array(n * n);
  const right = new Float64Array(n);
  for (let a = 0; a < n; a++) {
    for (let b = 0; b <= a; b++) {
      let sum = 0;
      for (let i = 0; i < residuals.length; i++) sum += columns[a][i] * columns[b][i];
      normal[a * n + b] = sum;
      normal[b * n + a] = sum;
    }
    let sum = 0;
    for (let i = 0; i < residuals.length; i++) sum -= columns[a][i] * residuals[i];
    right[a] = sum;
  }
  return { normal, right };
}

/**
 * Least squares from a start, parameters kept within bounds; the same to the last digit everywhere.
 *
 * @source Levenberg 1944, Marquardt 1963 (from memory), damping by the diagonal
 * @rule PL2
 */
export function fitLeastSquares(problem: FitProblem, start: Float64Array): Fitted {
  const n = start.length;
  let parameters = start.slice();
  let residuals = problem.residualsOf(parameters);
  let cost = costOf(residuals);
  let damping = 1e-2;
  let equations = normalEquations(problem, parameters, residuals);
  for (let step = 0; step < mostSteps && damping < 1e8; step++) {
    const damped = equations.normal.slice();
    for (let k = 0; k < n; k++) damped[k * n + k] += damping * (damped[k * n + k] + 1e-9);
    const move = solveSymmetric(damped, equations.right);
    const tried = parameters.map((value, k) =>
      Math.min(problem.upper[k], Math.max(problem.lower[k], value + (move?.[k] ?? 0))),
    );
    const found = problem.residualsOf(tried);
    const foundCost = costOf(found);
    if (!move || !(foundCost < cost)) {
      damping *= 8;
      continue;
    }
    const isDone = cost - foundCost < 1e-7 * cost;
    [parameters, residuals, cost, damping] = [tried, found, foundCost, damping / 5];
    equations = normalEquations(problem, parameters, residuals);
    if (isDone) break;
  }
  return { parameters, cost, normal: equations.normal };
}

/**
 * Moves of the parameters by one standard deviation along independent directions: columns of a root of the covariance
 * s^2 (J'J)^-1.
 *
 * @source JCGM 102: propagation of a covariance; root by Cholesky's factorisation
 * @rule PL2
 */
export function independentMoves(normal: Float64Array, n: number, scale: number): Float64Array[] {
  const factor = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = normal[i * n + j] + (i === j ? 1e-9 : 0);
      for (let k = 0; k < j; k++) sum -= factor[i * n + k] * factor[j * n + k];
      factor[i * n + j] = i === j ? Math.sqrt(Math.max(sum, 1e-9)) : sum / factor[j * n + j];
    }
  }
  return Array.from({ length: n }, (_, column) => {
    const move = new Float64Array(n);
    move[column] = scale;
    for (let i = n - 1; i >= 0; i--) {
      for (let k = i + 1; k < n; k++) move[i] -= factor[k * n + i] * move[k];
      move[i] /= factor[i * n + i];
    }
    return move;
  });
}
