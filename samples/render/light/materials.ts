import { wavelengthsNm } from './cmf-1931';
import { type Spectrum, times } from './spectra';

const rising = (edgeNm: number, widthNm: number, low: number, high: number): Spectrum =>
  wavelengthsNm.map((nm) => low + (high - low) / (1 + Math.exp(-(nm - edgeNm) / widthNm)));

/** What light passes or comes back from, on a window: unprinted scale, dark print, red print, a black dial's ground. */
export type Material = 'base' | 'dark' | 'red' | 'black';
export const materialNames: readonly Material[] = ['base', 'dark', 'red', 'black'];

const cream = rising(495, 22, 0.6, 0.88);
const redPigment = rising(595, 8, 0.03, 0.85);

/** Share of light let through from behind. The print lies on the cream scale, so both act. */
export const transmission: Readonly<Record<Material, Spectrum>> = {
  base: cream,
  dark: cream.map((value) => 0.03 * value),
  red: times(cream, redPigment),
  black: cream.map((value) => 0.002 * value),
};

/** Share of room light thrown back to the viewer. */
export const reflectance: Readonly<Record<Material, Spectrum>> = {
  base: cream.map((value) => 0.7 * value),
  dark: cream.map(() => 0.04),
  red: redPigment.map((value) => 0.05 + 0.6 * value),
  black: cream.map(() => 0.04),
};
