import { uv1976FromXyz } from '../colour/chromaticity';
import { planckSpectrum, xyzFromSpectrum } from '../colour/spectra';

export interface LocusMark {
  readonly temperatureK: number;
  readonly uPrime: number;
  readonly vPrime: number;
}

/** From a dim filament lamp to daylight. */
const range = { fromK: 1500, toK: 7000, stepK: 50 } as const;
/** Where a lamp's data sheet would place it. */
export const markedK = [1500, 1800, 2200, 2700, 3000, 4000, 5000, 6500] as const;

/**
 * The Planckian locus in u'v' from 1500 to 7000 K, every 50 K.
 *
 * @source CIE 015:2018; c2 = 1.4388e-2 m K
 * @rule LF6
 */
export function planckianLocus(): LocusMark[] {
  const count = (range.toK - range.fromK) / range.stepK + 1;
  return Array.from({ length: count }, (_, i) => {
    const temperatureK = range.fromK + i * range.stepK;
    const { uPrime, vPrime } = uv1976FromXyz(xyzFromSpectrum(planckSpectrum(temperatureK)));
    return { temperatureK, uPrime, vPrime };
  });
}
