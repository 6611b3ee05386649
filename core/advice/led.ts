import { xyFromXyz, xyzFromXy } from '../colour/chromaticity';
import { whiteE, type Chromaticity } from '../colour/constants';
import { cosDeg } from '../colour/deterministic-angle';
import { dominantWavelengthOf, xyOfWavelength } from '../colour/dominant-wavelength';
import type { Triple } from '../colour/matrix3';
import { xyzFromSpectrum, type Spectrum } from '../colour/spectra';
import { lineOfDominant, perLuminance } from './model-spectra';
import { highRenderingBands, ordinaryBands, phosphorWhite } from './phosphor-white';

/** What a data sheet says about an LED's colour. */
export type LedColour =
  | { readonly kind: 'dominant'; readonly dominantNm: number; readonly halfWidthNm?: number | undefined }
  | { readonly kind: 'xy'; readonly xy: Chromaticity; readonly halfWidthNm?: number | undefined }
  | { readonly kind: 'spectrum'; readonly spectrum: Spectrum };

/** What it says about its light, at the current `atMa`. */
export type LedLight =
  | { readonly kind: 'lumens'; readonly lm: number }
  | { readonly kind: 'intensity'; readonly mcd: number; readonly angleDeg: number | null };

/** An LED, or several alike in series, as its data sheet describes it. */
export interface Led {
  readonly name: string;
  readonly colour: LedColour;
  /** Null: the sheet's light or its current is not known. */
  readonly light: LedLight | null;
  readonly atMa: number | null;
  /** Forward voltage of one LED, V. */
  readonly forwardV: number;
  readonly maxMa: number;
  /** How many stand in one string. */
  readonly inSeries: number;
}

/** Width of a line when the data sheet names none. @source our own choice: typical AlInGaP 18 nm, InGaN green 33 nm */
const usualHalfWidthNm = (dominantNm: number): number => (dominantNm >= 480 && dominantNm < 560 ? 33 : 18);

/** From this purity on a chromaticity is that of a narrow line, below it that of a phosphor LED. Our own choice. */
const narrowFrom = 0.8;

/**
 * Chromaticity of an LED: the data sheet's xy; else that of a line of its dominant wavelength and half-width; without a half-width
 * the spectral locus itself.
 *
 * @throws RangeError for a wavelength outside 360..830 nm
 * @source CIE 015:2018; purity 1 without a half-width is our own choice: right within 0.003 u'v' for red and amber, 0.013 for green
 * @rule LA1
 */
export function ledChromaticity(colour: LedColour): Chromaticity {
  if (colour.kind === 'xy') return colour.xy;
  if (colour.kind === 'spectrum') return xyFromXyz(xyzFromSpectrum(colour.spectrum));
  if (colour.halfWidthNm === undefined) return xyOfWavelength(colour.dominantNm);
  return xyFromXyz(xyzFromSpectrum(lineOfDominant(colour.dominantNm, colour.halfWidthNm)));
}

/**
 * Spectrum of an LED at Y = 1, for what lies behind a dyed scale or red print: its own, a line, or a phosphor model of its xy.
 *
 * @returns null when no model has that xy
 * @source our own models, see `lineSpectrum` and `phosphorWhite`
 * @rule LA1, LA2
 */
export function ledSpectrum(colour: LedColour): Spectrum | null {
  if (colour.kind === 'spectrum') return perLuminance(colour.spectrum);
  if (colour.kind === 'dominant') {
    const halfWidthNm = colour.halfWidthNm ?? usualHalfWidthNm(colour.dominantNm);
    return perLuminance(lineOfDominant(colour.dominantNm, halfWidthNm));
  }
  const dominant = dominantWavelengthOf(colour.xy, whiteE);
  if (dominant !== null && !dominant.isComplementary && (colour.halfWidthNm || dominant.purity >= narrowFrom)) {
    const halfWidthNm = colour.halfWidthNm ?? usualHalfWidthNm(dominant.wavelengthNm);
    return perLuminance(lineOfDominant(dominant.wavelengthNm, halfWidthNm));
  }
  return phosphorWhite(colour.xy, ordinaryBands) ?? phosphorWhite(colour.xy, highRenderingBands);
}

/** Whether an LED is a white one by its chromaticity, and not of one colour. @source our own choice: purity under 0.8 @rule LA20 */
export function isWhiteLed(colour: LedColour): boolean {
  const dominant = dominantWavelengthOf(ledChromaticity(colour), whiteE);
  return dominant === null || dominant.purity < narrowFrom;
}

/**
 * XYZ of an LED's light at Y = 1 as it leaves the scale; behind a dyed one Y is what the dye lets through.
 *
 * @param dye  transmission 0..1, or null for a clear scale
 * @returns null when the LED's spectrum is needed and not known
 * @source CIE 015:2018
 * @rule LA3
 */
export function ledXyz(colour: LedColour, dye: Spectrum | null): Triple | null {
  if (dye === null) return xyzFromXy(ledChromaticity(colour));
  const spectrum = ledSpectrum(colour);
  return spectrum === null ? null : xyzFromSpectrum((nm) => spectrum(nm) * dye(nm));
}

/**
 * Lumens per candela of an LED that shines as cos^m: 2 pi / (m + 1), with m = ln 0.5 / ln cos(half of the full viewing angle).
 *
 * 15 degrees 0.077, 30 degrees 0.30, 60 degrees 1.08, 120 degrees 3.14.
 *
 * @param angleDeg  full angle between the directions of half intensity, above 0, below 180
 * @throws RangeError outside that
 * @source integral of a cos^m lobe over the half space, common practice
 * @rule LA4
 */
export function lumensPerCandela(angleDeg: number): number {
  if (!(angleDeg > 0 && angleDeg < 180)) throw new RangeError(`no lobe of ${angleDeg} degrees`);
  const power = Math.log(0.5) / Math.log(cosDeg(angleDeg / 2));
  return (2 * Math.PI) / (power + 1);
}

/**
 * Light of a string for each mA, in lumens, taken as rising in step with the current.
 *
 * @param isSameLens  all lamps have the same lens: candela then stand for lumens
 * @returns null when it cannot be told: no light or current in the data sheet, or no viewing angle
 * @source our own choice: real LEDs droop by about 10 % at their full current
 * @rule LA4
 */
export function lightPerMa(led: Led, isSameLens: boolean): number | null {
  if (led.light === null || led.atMa === null) return null;
  if (led.light.kind === 'lumens') return (led.inSeries * led.light.lm) / led.atMa;
  const { mcd, angleDeg } = led.light;
  if (isSameLens) return (led.inSeries * mcd) / 1000 / led.atMa;
  return angleDeg === null ? null : (led.inSeries * (mcd / 1000) * lumensPerCandela(angleDeg)) / led.atMa;
}
