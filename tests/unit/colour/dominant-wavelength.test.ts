import { expect, test } from 'vitest';
import { whiteA, whiteD65, whiteE } from '../../../core/colour/constants';
import { dominantWavelengthOf, xyOfWavelength } from '../../../core/colour/dominant-wavelength';

test('[CO12] a mixture of white and one wavelength gives both back, between nodes and under three whites', () => {
  for (const white of [whiteA, whiteD65, whiteE]) {
    for (const wavelengthNm of [442.4, 470, 505.25, 548.8, 590.5, 612]) {
      for (const purity of [0.03, 0.5, 0.98]) {
        const edge = xyOfWavelength(wavelengthNm);
        const mixture = { x: white.x + purity * (edge.x - white.x), y: white.y + purity * (edge.y - white.y) };
        const found = dominantWavelengthOf(mixture, white)!;
        // rounding only; the crowded violet end is worth most
        expect(found.wavelengthNm).toBeWithin(wavelengthNm, 1e-7);
        expect(found.purity).toBeWithin(purity, 1e-10);
        expect(found.isComplementary).toBe(false);
      }
    }
  }
});

test('[CO12] a purple has the wavelength of its opposite, and purity 1 on the line of purples', () => {
  const [violet, red] = [xyOfWavelength(360), xyOfWavelength(699)];
  const onPurples = { x: 0.4 * violet.x + 0.6 * red.x, y: 0.4 * violet.y + 0.6 * red.y };
  const found = dominantWavelengthOf(onPurples, whiteE)!;
  expect(found.isComplementary).toBe(true);
  expect(found.purity).toBeWithin(1, 1e-12);
  expect(found.wavelengthNm).toBeGreaterThan(495);
  expect(found.wavelengthNm).toBeLessThan(570);
});

test('[CO12] the white itself and black have none; a white outside the locus stops loudly', () => {
  expect(dominantWavelengthOf(whiteA, whiteA)).toBeNull();
  expect(dominantWavelengthOf({ x: NaN, y: NaN }, whiteA)).toBeNull();
  expect(() => dominantWavelengthOf({ x: 1.4, y: 0.9 }, { x: 1.2, y: 0.8 })).toThrow(RangeError);
  expect(() => xyOfWavelength(359)).toThrow(RangeError);
  expect(() => xyOfWavelength(831)).toThrow(RangeError);
});
