import { xyzFromXy } from '../colour/chromaticity';
import type { Chromaticity } from '../colour/constants';
import { applyMatrix, invertMatrix, type Matrix3, type Triple } from '../colour/matrix3';
import { xyzFromSpectrum, type Spectrum } from '../colour/spectra';
import { lineSpectrum, perLuminance, sumOfSpectra } from './model-spectra';

/** Bands of a phosphor LED: the blue pump, and two phosphors. */
export interface PhosphorBands {
  readonly pump: Spectrum;
  readonly green: Spectrum;
  readonly red: Spectrum;
}

/** An ordinary white: one broad yellow phosphor, and a little orange-red one to make it warm. */
export const ordinaryBands: PhosphorBands = {
  pump: lineSpectrum(450, 20),
  green: lineSpectrum(555, 110),
  red: lineSpectrum(605, 90),
};

/** A white of high colour rendering: a greener and a redder phosphor. */
export const highRenderingBands: PhosphorBands = {
  pump: lineSpectrum(455, 22),
  green: lineSpectrum(535, 105),
  red: lineSpectrum(632, 95),
};

/**
 * Spectrum of a phosphor LED that has the chromaticity of a data sheet, scaled to Y = 1: amounts of pump and two phosphors by the
 * linear system of their XYZ.
 *
 * @returns null when the bands cannot make that chromaticity
 * @source our own model of bands; additive mixing (CIE 015:2018)
 * @rule LA2
 */
export function phosphorWhite(xy: Chromaticity, bands: PhosphorBands): Spectrum | null {
  const parts = [bands.pump, bands.green, bands.red].map(perLuminance);
  const [pump, green, red] = parts.map(xyzFromSpectrum);
  const columns: Matrix3 = [
    [pump[0], green[0], red[0]],
    [pump[1], green[1], red[1]],
    [pump[2], green[2], red[2]],
  ];
  const amounts: Triple = applyMatrix(invertMatrix(columns), xyzFromXy(xy));
  // A hair below 0 is rounding; anything more is a colour outside the triangle of the bands.
  if (amounts.some((amount) => amount < -1e-9)) return null;
  return sumOfSpectra(parts.map((spectrum, i) => ({ spectrum, amount: Math.max(0, amounts[i]) })));
}
