import { describe, expect, it } from 'vitest';
import { ledChromaticity, ledSpectrum, ledXyz } from '../../../core/advice/led';
import { lineOfDominant, perLuminance } from '../../../core/advice/model-spectra';
import { ordinaryBands, phosphorWhite } from '../../../core/advice/phosphor-white';
import { uv1976FromXy, uv1976FromXyz, xyFromXyz } from '../../../core/colour/chromaticity';
import { whiteE } from '../../../core/colour/constants';
import { dominantWavelengthOf, xyOfWavelength } from '../../../core/colour/dominant-wavelength';
import { planckSpectrum, xyzFromSpectrum } from '../../../core/colour/spectra';
import { uvDistance } from '../../../core/colour/steps';
import { fitDye } from '../../../core/advice/scale-dye';
import { dyeTransmission } from '../../../core/advice/families/scale-models';
import { readPublished } from '../../support/csv';

describe('ledChromaticity', () => {
  it('[LA1] without a half-width is the spectral locus of the published table', () => {
    for (const row of readPublished('07_spectral_locus.csv')) {
      const uv = uv1976FromXy(ledChromaticity({ kind: 'dominant', dominantNm: Number(row['wavelength_nm']) }));
      // five decimals in the table
      expect(uv.uPrime).toBeWithin(Number(row['u_prime']), 1e-5);
      expect(uv.vPrime).toBeWithin(Number(row['v_prime']), 1e-5);
    }
  });

  it('[LA1] with a half-width keeps the dominant wavelength; green 525 nm of 33 nm lies 0.013 inside the locus', () => {
    for (const [nm, halfWidthNm] of [
      [470, 25],
      [525, 33],
      [572, 20],
      [590, 15],
      [625, 18],
    ]) {
      const xy = ledChromaticity({ kind: 'dominant', dominantNm: nm, halfWidthNm });
      expect(dominantWavelengthOf(xy, whiteE)!.wavelengthNm).toBeWithin(nm, 0.05);
    }
    const green = ledChromaticity({ kind: 'dominant', dominantNm: 525, halfWidthNm: 33 });
    // the prototype's figure, at a peak 1 nm away
    expect(uvDistance(uv1976FromXy(green), uv1976FromXy(xyOfWavelength(525)))).toBeWithin(0.013, 0.001);
  });
});

describe('ledSpectrum', () => {
  it('[LA2] of a white has the chromaticity that was asked for, at Y = 1; no phosphor makes a green', () => {
    for (const xy of [
      { x: 0.4578, y: 0.4101 },
      { x: 0.4339, y: 0.4033 },
      { x: 0.3123, y: 0.3283 },
    ]) {
      const XYZ = xyzFromSpectrum(ledSpectrum({ kind: 'xy', xy })!);
      expect(XYZ[1]).toBeWithin(1, 1e-9);
      expect(xyFromXyz(XYZ).x).toBeWithin(xy.x, 1e-9);
      expect(xyFromXyz(XYZ).y).toBeWithin(xy.y, 1e-9);
    }
    expect(phosphorWhite({ x: 0.2, y: 0.6 }, ordinaryBands)).toBeNull();
  });

  it('[LA1] of an xy near the locus is a line, given at Y = 1', () => {
    const spectrum = ledSpectrum({ kind: 'xy', xy: { x: 0.17, y: 0.7 }, halfWidthNm: 33 })!;
    const line = perLuminance(lineOfDominant(525.2, 33));
    expect(spectrum(525)).toBeWithin(line(525), 0.02 * line(525));
    expect(spectrum(650)).toBeLessThan(1e-6);
  });
});

describe('ledXyz', () => {
  it('[LA3] behind a dye that takes half of all light keeps its colour and half its luminance', () => {
    const colour = { kind: 'dominant', dominantNm: 590, halfWidthNm: 15 } as const;
    const [clear, dyed] = [ledXyz(colour, null)!, ledXyz(colour, () => 0.5)!];
    expect(dyed[1] / clear[1]).toBeWithin(0.5, 1e-9);
    expect(uvDistance(uv1976FromXyz(clear), uv1976FromXyz(dyed))).toBeWithin(0, 1e-9);
    expect(ledXyz({ kind: 'xy', xy: { x: 0.2, y: 0.55 } }, () => 1)).toBeNull();
  });
});

describe('fitDye', () => {
  it('[LA12] finds the dye that a glow came through, and says how far a blue scale is from any', () => {
    const filament = planckSpectrum(2400);
    const glow = uv1976FromXyz(xyzFromSpectrum((nm) => filament(nm) * dyeTransmission(531)(nm)));
    const dye = fitDye(glow, filament);
    // the search's step is 0.5 nm, and 531 is one of them
    expect(dye.edgeNm).toBe(531);
    expect(dye.missUv).toBeWithin(0, 1e-12);
    expect(fitDye({ uPrime: 0.17, vPrime: 0.4 }, filament).missUv).toBeGreaterThan(0.1);
  });
});
