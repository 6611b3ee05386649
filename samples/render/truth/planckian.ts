import { planck, tristimulus, type Xyz } from '../light/spectra';

/** CIE 1960 u, v. */
export function uv1960([x, y, z]: Xyz): [number, number] {
  const sum = x + 15 * y + 3 * z;
  return [(4 * x) / sum, (6 * y) / sum];
}

const coolestK = 1000;
const hottestK = 20_000;

/**
 * Correlated colour temperature and signed distance from the Planckian locus (positive above it, towards green), by direct
 * minimisation of the distance in CIE 1960 u, v over ln T. No temperature when the distance exceeds 0.05 or at the ends of the range.
 */
export function temperatureOf(light: Xyz): { readonly cctK: number | null; readonly duv: number } {
  const [u, v] = uv1960(light);
  const distanceAt = (logK: number) => {
    const [pu, pv] = uv1960(tristimulus(planck(Math.exp(logK))));
    return Math.hypot(u - pu, v - pv);
  };
  const steps = 120;
  const low = Math.log(coolestK);
  const step = (Math.log(hottestK) - low) / steps;
  const grid = Array.from({ length: steps + 1 }, (_, i) => distanceAt(low + i * step));
  const nearest = grid.indexOf(Math.min(...grid));
  const best = goldenSection(distanceAt, low + (nearest - 1) * step, low + (nearest + 1) * step);
  const [, nearV] = uv1960(tristimulus(planck(Math.exp(best))));
  const duv = Math.sign(v - nearV) * distanceAt(best);
  const inRange = nearest > 0 && nearest < steps && Math.abs(duv) <= 0.05;
  return { cctK: inRange ? Math.exp(best) : null, duv };
}

/** Where a function with one valley between `a` and `b` is lowest. */
function goldenSection(valueAt: (x: number) => number, a: number, b: number): number {
  const golden = (Math.sqrt(5) - 1) / 2;
  let [low, high] = [a, b];
  while (high - low > 1e-9) {
    const left = high - golden * (high - low);
    const right = low + golden * (high - low);
    if (valueAt(left) < valueAt(right)) high = right;
    else low = left;
  }
  return (low + high) / 2;
}
