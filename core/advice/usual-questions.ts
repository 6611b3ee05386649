import { uv1976FromXyz, type Uv1976 } from '../colour/chromaticity';
import { planckSpectrum, xyzFromSpectrum, type Spectrum } from '../colour/spectra';
import type { FamilyEntry } from '../contract/lamp-advice';
import { forecastFamily } from './families/forecast';
import { lampFamilies } from './families/lamp-families';
import { clearScale, dyeTransmission, usualPigments } from './families/scale-models';

/** An amber scale as there are many. @rule LF2 */
export const amberDye: Spectrum = dyeTransmission(520);

/** Glow of a scale behind a filament lamp, as a target of mixes. @param dye  null: a clear scale @rule LA3 */
export function filamentGlow(kelvin: number, dye: Spectrum | null): Uv1976 {
  const lamp = planckSpectrum(kelvin);
  return uv1976FromXyz(xyzFromSpectrum((nm) => lamp(nm) * (dye === null ? 1 : dye(nm))));
}

/** Every family behind a clear or an amber scale with usual prints. @source see `forecastFamily` @rule LF3 */
export function forecastFamilies(filamentK: number, isDyed: boolean): FamilyEntry[] {
  const scale = {
    pigments: usualPigments,
    grounds: [isDyed ? amberDye : clearScale],
    filament: planckSpectrum(filamentK),
  };
  return lampFamilies().map((family) => forecastFamily(family, scale));
}
