import { wavelengthsNm, xBar, yBar, zBar } from './cmf-1931';

/** Values at the wavelengths of `wavelengthsNm`. */
export type Spectrum = readonly number[];
export type Xyz = readonly [number, number, number];

export type LightName =
  | 'filament'
  | 'warm-white'
  | 'cool-white'
  | 'phosphor-amber'
  | 'narrow-amber'
  | 'red-led'
  | 'green-led'
  | 'yellow-green-led'
  | 'room';

const fromFormula = (formula: (nm: number) => number): Spectrum => wavelengthsNm.map(formula);

/** Spectral radiance of a full radiator, any unit; second radiation constant 1.4388e-2 m K. */
export function planck(kelvin: number): Spectrum {
  return fromFormula((nm) => {
    const metres = nm * 1e-9;
    return Math.pow(metres, -5) / (Math.exp(1.4388e-2 / (metres * kelvin)) - 1);
  });
}

/** Gaussian line of a given full width at half maximum. */
function line(peakNm: number, fwhmNm: number): Spectrum {
  return fromFormula((nm) => Math.exp(-4 * Math.LN2 * ((nm - peakNm) / fwhmNm) ** 2));
}

/** Blue pump plus a broad phosphor band. */
function phosphorWhite(pumpShare: number, phosphorNm: number, phosphorFwhmNm: number): Spectrum {
  const pump = line(450, 20);
  const phosphor = line(phosphorNm, phosphorFwhmNm);
  return phosphor.map((value, i) => value + pumpShare * pump[i]);
}

export function times(a: Spectrum, b: Spectrum): Spectrum {
  return a.map((value, i) => value * b[i]);
}

export function tristimulus(spectrum: Spectrum): Xyz {
  const sum = (weight: Spectrum) => spectrum.reduce((total, value, i) => total + value * weight[i], 0);
  return [sum(xBar), sum(yBar), sum(zBar)];
}

/** Scaled so that Y = 1: fluxes of lamps then are in lumens, whatever their colour. */
function perLumen(spectrum: Spectrum): Spectrum {
  const y = tristimulus(spectrum)[1];
  return spectrum.map((value) => value / y);
}

/** All of these spectra are invented from formulas; none was measured. */
export const lights: Readonly<Record<LightName, Spectrum>> = {
  filament: perLumen(planck(2450)),
  'warm-white': perLumen(phosphorWhite(0.26, 600, 125)),
  'cool-white': perLumen(phosphorWhite(1.25, 560, 120)),
  'phosphor-amber': perLumen(phosphorWhite(0.01, 598, 82)),
  'narrow-amber': perLumen(line(590, 15)),
  'red-led': perLumen(line(632, 18)),
  'green-led': perLumen(line(525, 33)),
  'yellow-green-led': perLumen(line(569, 28)),
  room: perLumen(planck(3900)),
};
