import { colourMatching, firstWavelengthNm } from './cie1931-2deg';
import { secondRadiationConstant } from './constants';
import type { Triple } from './matrix';

/** Relative power at a wavelength in nm; 0 where there is none. */
export type Spectrum = (wavelengthNm: number) => number;

/**
 * X, Y, Z of a spectrum: sum over 360..830 nm in steps of 1 nm of power times the colour-matching functions.
 * Not scaled: Y is in the spectrum's own unit.
 *
 * @source CIE 15:2004, 7.1 (summation at 1 nm)
 * @rule CO6
 */
export function xyzFromSpectrum(spectrum: Spectrum): Triple {
  let X = 0;
  let Y = 0;
  let Z = 0;
  colourMatching.forEach(([x, y, z], i) => {
    const power = spectrum(firstWavelengthNm + i);
    X += power * x;
    Y += power * y;
    Z += power * z;
  });
  return [X, Y, Z];
}

/**
 * Relative spectrum of a black body: lambda^-5 / (exp(c2 / (lambda T)) - 1), scaled to 1 at 560 nm.
 *
 * @param temperatureK  above 0
 * @source Planck's law; c2 = 1.4388e-2 m K as CIE 15:2004 takes it for colour temperature
 * @rule CO6
 */
export function planckSpectrum(temperatureK: number): Spectrum {
  const power = (nm: number): number =>
    Math.pow(nm / 560, -5) / (Math.exp(secondRadiationConstant / (nm * 1e-9 * temperatureK)) - 1);
  const at560 = power(560);
  return (nm) => power(nm) / at560;
}
