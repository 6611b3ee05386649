import { uv1976FromXyz, xyFromXyz } from '../../colour/chromaticity';
import { planckSpectrum, xyzFromSpectrum, type Spectrum } from '../../colour/spectra';
import { mixOfTwo } from '../mix';
import { lineSpectrum, perLuminance, sumOfSpectra, throughFilter } from '../model-spectra';
import { highRenderingBands, ordinaryBands, phosphorWhite, type PhosphorBands } from '../phosphor-white';
import { cieLedSpectrum } from './cie-leds';
import { bootTransmission } from './scale-models';

/** Lamps that are sold under one name: spectra from lot to lot and maker to maker, the usual one first. */
export interface LampFamily {
  readonly name: string;
  readonly members: readonly Spectrum[];
}

/** A filament lamp at the low end of its volts, as vintage scales run it; what indices are per cent of. */
export const referenceFilamentK = 2400;

/** What else runs behind vintage scales, from tired to bright: what mixes are tuned to, too. */
const otherFilamentsK = [2100, 2800] as const;

/**
 * Filament lamp of a colour temperature.
 *
 * @source Planck's law: tungsten is a little bluer than a full radiator of its colour temperature, far below a colour step
 */
export function filamentFamily(kelvin: number): LampFamily {
  return { name: `filament ${kelvin} K`, members: [planckSpectrum(kelvin)] };
}

/** White of a colour temperature out of bands; a defect when they cannot make it. */
function white(kelvin: number, bands: PhosphorBands): Spectrum {
  const spectrum = phosphorWhite(xyFromXyz(xyzFromSpectrum(planckSpectrum(kelvin))), bands);
  if (spectrum === null) throw new RangeError(`no phosphor white of ${kelvin} K`);
  return spectrum;
}

/** A pump and one broad phosphor, the simplest white. */
const onePhosphor = (pumpShare: number, peakNm: number, halfWidthNm: number): Spectrum =>
  sumOfSpectra([
    { spectrum: lineSpectrum(450, 20), amount: pumpShare },
    { spectrum: lineSpectrum(peakNm, halfWidthNm), amount: 1 },
  ]);

/** Two lines in the mix that comes nearest to a filament. */
function mixed(first: Spectrum, second: Spectrum, kelvin = referenceFilamentK): Spectrum {
  const parts = [perLuminance(first), perLuminance(second)];
  const target = uv1976FromXyz(xyzFromSpectrum(planckSpectrum(kelvin)));
  const { luminanceShares } = mixOfTwo([xyzFromSpectrum(parts[0]), xyzFromSpectrum(parts[1])], target);
  return sumOfSpectra(parts.map((spectrum, i) => ({ spectrum, amount: luminanceShares[i] })));
}

/** Pairs of lamps, each tuned to the reference filament and to the others: how red the print looks goes with the ratio of the mix. */
const mixes = (pairs: readonly (readonly [Spectrum, Spectrum])[]): Spectrum[] =>
  [referenceFilamentK, ...otherFilamentsK].flatMap((kelvin) => pairs.map(([a, b]) => mixed(a, b, kelvin)));

/** Blue-pumped whites of one colour temperature. */
const ordinary = (kelvin: number, ...more: Spectrum[]): LampFamily => ({
  name: `white ${kelvin} K, ordinary`,
  members: [...more, white(kelvin, ordinaryBands)],
});

const highRendering = (kelvin: number, ...more: Spectrum[]): LampFamily => ({
  name: `white ${kelvin} K, high colour rendering`,
  members: [white(kelvin, highRenderingBands), ...more],
});

const red = (peakNm: number): Spectrum => lineSpectrum(peakNm, 18);
const green = (peakNm: number): Spectrum => lineSpectrum(peakNm, 33);
const yellowGreen = (peakNm: number): Spectrum => lineSpectrum(peakNm, 20);

/**
 * The kinds of lamps that restorers choose among.
 *
 * @source whites: CIE 15:2018 typical LEDs where there is one, and our own band models; lines: our own Gaussians at the peaks and
 * widths of common parts (common practice)
 * @rule LF1
 */
export function lampFamilies(): LampFamily[] {
  const booted = (edgeNm: number): Spectrum[] =>
    [white(3000, ordinaryBands), cieLedSpectrum('LED-B5')].map((lamp) => throughFilter(lamp, bootTransmission(edgeNm)));
  return [
    { ...filamentFamily(referenceFilamentK), members: [referenceFilamentK, ...otherFilamentsK].map(planckSpectrum) },
    filamentFamily(2700),
    ordinary(2200, onePhosphor(0.13, 607, 120)),
    highRendering(2200),
    ordinary(2700, cieLedSpectrum('LED-B1'), onePhosphor(0.26, 600, 125)),
    highRendering(2700, cieLedSpectrum('LED-V1'), cieLedSpectrum('LED-BH1')),
    ordinary(3000, cieLedSpectrum('LED-B2')),
    highRendering(3000, cieLedSpectrum('LED-BH1')),
    { name: 'white behind an amber boot', members: [545, 530, 560].flatMap(booted) },
    {
      name: 'cool white',
      members: [cieLedSpectrum('LED-B5'), cieLedSpectrum('LED-B4'), onePhosphor(1.25, 560, 120)],
    },
    {
      name: 'phosphor amber',
      members: [lineSpectrum(598, 80), lineSpectrum(594, 70), lineSpectrum(602, 85)],
    },
    {
      name: 'narrow amber',
      members: [lineSpectrum(590, 15), lineSpectrum(590, 18), lineSpectrum(587, 15), lineSpectrum(594, 18)],
    },
    {
      name: 'red + green',
      members: mixes([
        [red(632), green(525)],
        [red(625), green(520)],
        [red(638), green(530)],
      ]),
    },
    {
      name: 'red + yellow-green',
      members: mixes([
        [red(632), yellowGreen(572)],
        [red(625), yellowGreen(568)],
        [red(638), yellowGreen(574)],
      ]),
    },
    { name: 'red', members: [red(632), red(625), red(638)] },
  ];
}
