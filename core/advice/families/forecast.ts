import { uv1976FromXyz, type Uv1976 } from '../../colour/chromaticity';
import { xyzFromSpectrum, type Spectrum } from '../../colour/spectra';
import { redIndexWords } from '../../reading/red-index';
import { rednessOf } from '../../reading/red-print-formulas';
import { throughFilter } from '../model-spectra';
import type { LampFamily } from './lamp-families';
import { pigmentTransmission, type Pigment } from './scale-models';

/** The scale that lamps are judged on. */
export interface ScaleModel {
  /** Prints that it may have, the likeliest first. */
  readonly pigments: readonly Pigment[];
  /** Transmissions of its ground that are possible, the likeliest first. */
  readonly grounds: readonly Spectrum[];
  /** The filament lamp that the red print is compared with. */
  readonly filament: Spectrum;
}

export interface RedForecast {
  /** Per cent of the redness behind the filament lamp. */
  readonly index: number;
  readonly low: number;
  readonly high: number;
}

/** A lamp family on a scale. */
export interface FamilyForecast extends RedForecast, Uv1976 {
  readonly name: string;
  readonly words: string;
}

function rednessUnder(lamp: Spectrum, ground: Spectrum, pigment: Spectrum): number {
  const glow = throughFilter(lamp, ground);
  return rednessOf(xyzFromSpectrum(throughFilter(glow, pigment)), xyzFromSpectrum(glow));
}

/** Middle one of some numbers; of an even count the mean of the middle two. */
function middleOf(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const half = sorted.length / 2;
  return (sorted[Math.ceil(half) - 1] + sorted[Math.floor(half)]) / 2;
}

/**
 * How red the print will look under a lamp: per cent of its redness behind the filament, the median over the prints and grounds
 * for the usual lamp of the family, and the range over all of them.
 *
 * @param members  spectra, the usual one first; any scale
 * @returns 0 or more; low <= index <= high
 * @throws RangeError when a lamp gives no light behind the ground
 * @source redness as in the reading of photos (RP3); range over our own models of print and ground
 * @rule LF3
 */
export function forecastRedPrint(
  members: readonly Spectrum[],
  { pigments, grounds, filament }: ScaleModel,
): RedForecast {
  const cases = grounds.flatMap((ground) =>
    pigments.map((pigment) => {
      const print = pigmentTransmission(pigment);
      const reference = rednessUnder(filament, ground, print);
      return members.map((lamp) => Math.max(0, (100 * rednessUnder(lamp, ground, print)) / reference));
    }),
  );
  return {
    index: middleOf(cases.map((indices) => indices[0])),
    low: Math.min(...cases.flat()),
    high: Math.max(...cases.flat()),
  };
}

/**
 * A lamp family on a scale: red print with its range, and the tint of the glow behind the likeliest ground.
 *
 * @source see `forecastRedPrint`; CIE 015:2018
 * @rule LF3
 */
export function forecastFamily(family: LampFamily, scale: ScaleModel): FamilyForecast {
  const red = forecastRedPrint(family.members, scale);
  const glow = uv1976FromXyz(xyzFromSpectrum(throughFilter(family.members[0], scale.grounds[0])));
  return { name: family.name, ...red, ...glow, words: redIndexWords(red.index, 'reference') };
}
