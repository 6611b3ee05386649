import { uvPrimeFromXyz, uv1960FromUvPrime, type Chromaticity } from './spaces';
import { planckSpectrum, xyzFromSpectrum } from './spectra';

/** One temperature of the Planckian locus in CIE 1960 u, v. */
interface LocusPoint {
  readonly temperatureK: number;
  readonly u: number;
  readonly v: number;
}

const coldestK = 1000;
const hottestK = 20_000;
const tableStep = 1.0025;
let locus: readonly LocusPoint[] | null = null;

/** The locus from 1000 to 20 000 K in steps of 0.25 %, made once, when first asked for. */
function planckianLocus(): readonly LocusPoint[] {
  if (locus) return locus;
  const points: LocusPoint[] = [];
  for (let temperatureK = coldestK; temperatureK < hottestK * tableStep; temperatureK *= tableStep) {
    const [u, v] = uv1960FromUvPrime(uvPrimeFromXyz(xyzFromSpectrum(planckSpectrum(temperatureK))));
    points.push({ temperatureK, u, v });
  }
  locus = points;
  return points;
}

export interface ColourTemperature {
  /** K; meaningful only for |duv| <= 0.05 (CIE 15). */
  readonly cctK: number;
  /** Distance from the locus in CIE 1960 u, v: above (greenish) positive. */
  readonly duv: number;
}

const distance = (point: LocusPoint, u: number, v: number): number => Math.hypot(point.u - u, point.v - v);

/** Along the chord of the two neighbours: good close to the locus. */
function triangular(before: LocusPoint, after: LocusPoint, u: number, v: number): ColourTemperature {
  const d0 = distance(before, u, v);
  const d2 = distance(after, u, v);
  const chord = Math.hypot(after.u - before.u, after.v - before.v);
  const along = (d0 * d0 - d2 * d2 + chord * chord) / (2 * chord);
  const share = along / chord;
  const side = v >= before.v + (after.v - before.v) * share ? 1 : -1;
  return {
    cctK: before.temperatureK + (after.temperatureK - before.temperatureK) * share,
    duv: side * Math.sqrt(Math.max(0, d0 * d0 - along * along)),
  };
}

/** Least of the parabola through the three nearest distances: good away from the locus. */
function parabolic(three: readonly [LocusPoint, LocusPoint, LocusPoint], u: number, v: number): ColourTemperature {
  const [t0, t1, t2] = three.map((point) => point.temperatureK);
  const [d0, d1, d2] = three.map((point) => distance(point, u, v));
  const x = (t2 - t1) * (t0 - t2) * (t1 - t0);
  const a = (t0 * (d2 - d1) + t1 * (d0 - d2) + t2 * (d1 - d0)) / x;
  const b = -(t0 * t0 * (d2 - d1) + t1 * t1 * (d0 - d2) + t2 * t2 * (d1 - d0)) / x;
  const c = -(d0 * (t2 - t1) * t1 * t2 + d1 * (t0 - t2) * t0 * t2 + d2 * (t1 - t0) * t0 * t1) / x;
  const cctK = -b / (2 * a);
  const side = triangular(three[0], three[2], u, v).duv < 0 ? -1 : 1;
  return { cctK, duv: side * (a * cctK * cctK + b * cctK + c) };
}

/**
 * Correlated colour temperature and Duv of a chromaticity.
 *
 * Nearest point of a table of the Planckian locus (1000-20 000 K, 0.25 % steps, 1 nm, c2 = 1.4388e-2); then the
 * triangular solution for |Duv| < 0.002, else the parabolic one.
 *
 * @param uvPrime  CIE 1976 u', v'
 * @returns null for no chromaticity (black), or where the nearest temperature lies outside 1000-20 000 K.
 *          For |duv| > 0.05 the temperature has no meaning (CIE 15): the caller leaves it out.
 * @source Ohno, LEUKOS 10 (2014) 47 (from memory)
 * @rule CO9
 */
export function colourTemperatureOf(uvPrime: Chromaticity): ColourTemperature | null {
  const [u, v] = uv1960FromUvPrime(uvPrime);
  if (!Number.isFinite(u) || !Number.isFinite(v)) return null;
  const points = planckianLocus();
  let nearest = 0;
  for (let i = 1; i < points.length; i++) {
    if (distance(points[i], u, v) < distance(points[nearest], u, v)) nearest = i;
  }
  if (nearest === 0 || nearest === points.length - 1) return null;
  const three = [points[nearest - 1], points[nearest], points[nearest + 1]] as const;
  const near = triangular(three[0], three[2], u, v);
  return Math.abs(near.duv) < 0.002 ? near : parabolic(three, u, v);
}
