import { describe, expect, it } from 'vitest';
import { colourWords, evennessToReferenceWords, evennessWords } from '../../../core/reading/words';

describe('words', () => {
  it.each([
    [100, 'even to a careful eye'],
    [95, 'even to a careful eye'],
    [94.9, 'slightly uneven'],
    [80, 'slightly uneven'],
    [79.9, 'clearly uneven'],
    [65, 'clearly uneven'],
    [64.9, 'hot spot seen at once'],
    [50, 'hot spot seen at once'],
    [49.9, 'spotty'],
  ])('[EV6] %d is "%s"', (score, words) => expect(evennessWords(score)).toBe(words));

  it.each([
    [2.1, 'more even than with the filament'],
    [2, 'as even as with the filament'],
    [-2, 'as even as with the filament'],
    [-2.1, 'a little less even than with the filament'],
    [-8, 'a little less even than with the filament'],
    [-8.1, 'clearly less even than with the filament'],
  ])('[EV6] %d points to the reference is "%s"', (points, words) =>
    expect(evennessToReferenceWords(points)).toBe(words),
  );

  it.each([
    [
      { cctK: 2438, duv: 0.001, isTooUnsure: false, outOfGamut: false },
      'as warm as a filament lamp run low: a glow of about 2400 K',
    ],
    [
      { cctK: 2960, duv: 0.008, isTooUnsure: false, outOfGamut: false },
      'warm white: a glow of about 3000 K, greener than a filament of that warmth',
    ],
    [
      { cctK: 6420, duv: -0.011, isTooUnsure: false, outOfGamut: false },
      'cool white: a glow of about 6500 K, pinker than a filament of that warmth',
    ],
    [
      { cctK: null, duv: 0.07, isTooUnsure: false, outOfGamut: false },
      'strongly coloured glow, without a colour temperature',
    ],
    [
      { cctK: 1800, duv: 0.02, isTooUnsure: false, outOfGamut: true },
      "at least this saturated: the glow lies outside the photo's colour space",
    ],
  ])('[CF5] %o in words', (input, words) => expect(colourWords(input)).toBe(words));
});
