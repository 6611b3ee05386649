import Color from 'colorjs.io';
import { converter, differenceCiede2000 } from 'culori';
import { describe, expect, test } from 'vitest';
import { xyzFromXy } from '../../../core/colour/chromaticity';
import { whiteD65 } from '../../../core/colour/constants';
import { deltaE00 } from '../../../core/colour/difference';
import { labFromXyz } from '../../../core/colour/lab';
import type { Triple } from '../../../core/colour/matrix3';
import { displayP3Space, encodedRgbFromXyz, srgbSpace, xyzFromEncodedRgb } from '../../../core/colour/spaces';
import { seededRandom } from '../../support/seeded-random';

const random = seededRandom(20240607);
const colours: Triple[] = Array.from({ length: 600 }, () => [random(), random(), random()]);
const d65 = xyzFromXy(whiteD65);
const labD65 = (rgb: Triple): Triple => labFromXyz(xyzFromEncodedRgb(rgb, srgbSpace), d65);

function expectTriple(found: Triple, expected: readonly (number | null)[], tolerance: number): void {
  expected.forEach((value, i) => expect(found[i]).toBeWithin(value ?? NaN, tolerance));
}

describe('600 random sRGB colours against culori', () => {
  const asRgb = ([r, g, b]: Triple) => ({ mode: 'rgb', r, g, b });

  test('[CO4] XYZ (D65) and Display P3', () => {
    const [toXyz, toP3] = [converter('xyz65'), converter('p3')];
    for (const rgb of colours) {
      const xyz = xyzFromEncodedRgb(rgb, srgbSpace);
      const [ofXyz, ofP3] = [toXyz(asRgb(rgb)), toP3(asRgb(rgb))];
      // its matrices are printed with 16 digits, but from rounded intermediate values: 2e-10
      expectTriple(xyz, [ofXyz['x'], ofXyz['y'], ofXyz['z']], 1e-9);
      // encoding is up to 13 times as steep
      expectTriple(encodedRgbFromXyz(xyz, displayP3Space), [ofP3['r'], ofP3['g'], ofP3['b']], 2e-8);
    }
  });

  test('[CO5] [CO7] Lab (D65) and CIEDE2000 of neighbours in the list', () => {
    const toLab = converter('lab65');
    const difference = differenceCiede2000();
    colours.forEach((rgb, i) => {
      const lab = labD65(rgb);
      const ofLab = toLab(asRgb(rgb));
      expectTriple(lab, [ofLab['l'], ofLab['a'], ofLab['b']], 2e-6);
      const other = labD65(colours[(i + 1) % colours.length]);
      const asLab = ([l, a, b]: Triple) => ({ mode: 'lab65', l, a, b });
      expect(deltaE00(lab, other)).toBeWithin(difference(asLab(lab), asLab(other)), 1e-9);
    });
  });
});

describe('600 random sRGB colours against color.js', () => {
  test('[CO4] [CO5] XYZ (D65), Display P3 and Lab (D65)', () => {
    for (const rgb of colours) {
      const colour = new Color('srgb', [...rgb]);
      const xyz = xyzFromEncodedRgb(rgb, srgbSpace);
      expectTriple(xyz, colour.to('xyz-d65').coords, 1e-9);
      expectTriple(encodedRgbFromXyz(xyz, displayP3Space), colour.to('p3').coords, 2e-8);
      expectTriple(labD65(rgb), colour.to('lab-d65').coords, 2e-6);
    }
  });

  test('[CO7] CIEDE2000 of the same Lab values (its own conversion would go through D50)', () => {
    colours.forEach((rgb, i) => {
      const [lab, other] = [labD65(rgb), labD65(colours[(i + 7) % colours.length])];
      const asD50 = (values: Triple) => new Color('lab', [...values]);
      expect(deltaE00(lab, other)).toBeWithin(asD50(lab).deltaE(asD50(other), '2000'), 1e-9);
    });
  });
});
