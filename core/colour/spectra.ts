import { observerFirstNm, observerLastNm, xBarText, yBarText, zBarText } from './cie1931-2deg';
import { firstRadiationRadianceWM2, secondRadiationMK } from './constants';
import type { Triple } from './matrix3';

/** Power at a wavelength in nm, any unit; 0 where there is none. */
export type Spectrum = (wavelengthNm: number) => number;

/** The CIE 1931 2 degree observer; index 0 is 360 nm, 1 nm a step. */
export interface Observer {
  readonly xBar: Float64Array;
  readonly yBar: Float64Array;
  readonly zBar: Float64Array;
}

let observer: Observer | null = null;

function valuesOf(text: string): Float64Array {
  const values = new Float64Array(observerLastNm - observerFirstNm + 1);
  values.set(text.trim().split(/\s+/).map(Number));
  return values;
}

/**
 * Colour-matching functions of the CIE 1931 2 degree observer, 360-830 nm, parsed once at first use.
 *
 * @source CIE 018:2019, ISO/CIE 11664-1
 */
export function cie1931Observer(): Observer {
  observer ??= { xBar: valuesOf(xBarText), yBar: valuesOf(yBarText), zBar: valuesOf(zBarText) };
  return observer;
}

/**
 * XYZ of a spectrum: sum over 360-830 nm, step 1 nm, of power times colour-matching function times 1 nm. Not scaled.
 *
 * @param spectrum  called at every whole nm of 360..830
 * @source CIE 015:2018 (summation at 1 nm)
 * @rule CO8
 */
export function xyzFromSpectrum(spectrum: Spectrum): Triple {
  const { xBar, yBar, zBar } = cie1931Observer();
  let X = 0;
  let Y = 0;
  let Z = 0;
  for (let i = 0; i < xBar.length; i++) {
    const power = spectrum(observerFirstNm + i);
    X += power * xBar[i];
    Y += power * yBar[i];
    Z += power * zBar[i];
  }
  return [X, Y, Z];
}

/**
 * A spectrum between table values: linear in between, 0 outside the table.
 *
 * @param wavelengthsNm  rising
 * @param powers         as many
 * @throws RangeError when the lists differ in length or hold fewer than 2 values, or the wavelengths do not rise
 * @source linear interpolation: our own choice (the tables used have 5 nm steps)
 */
export function spectrumFromTable(wavelengthsNm: readonly number[], powers: readonly number[]): Spectrum {
  if (wavelengthsNm.length !== powers.length || powers.length < 2) {
    throw new RangeError(`${wavelengthsNm.length} wavelengths for ${powers.length} powers`);
  }
  if (wavelengthsNm.some((nm, i) => i > 0 && !(nm > wavelengthsNm[i - 1]))) {
    throw new RangeError('wavelengths must rise');
  }
  const last = wavelengthsNm.length - 1;
  return (nm) => {
    if (!(nm >= wavelengthsNm[0] && nm <= wavelengthsNm[last])) return 0;
    let upper = 1;
    while (wavelengthsNm[upper] < nm) upper++;
    const share = (nm - wavelengthsNm[upper - 1]) / (wavelengthsNm[upper] - wavelengthsNm[upper - 1]);
    return powers[upper - 1] + (powers[upper] - powers[upper - 1]) * share;
  };
}

/**
 * Spectral radiance of a black body, W sr-1 m-3: c1 / (lambda^5 (exp(c2 / (lambda T)) - 1)).
 *
 * @param temperatureK  above 0
 * @throws RangeError for a temperature that is not above 0
 * @source Planck's law; c1 = 2 h c^2 of SI 2019, c2 = 1.4388e-2 m K (CIE 015:2018, the temperature scale of CCT)
 * @rule CO8
 */
export function planckSpectrum(temperatureK: number): Spectrum {
  if (!(temperatureK > 0)) throw new RangeError(`no black body at ${temperatureK} K`);
  return (nm) => {
    const m = nm * 1e-9;
    return firstRadiationRadianceWM2 / (m * m * m * m * m * (Math.exp(secondRadiationMK / (m * temperatureK)) - 1));
  };
}
