import { describe, expect, it } from 'vitest';
import { scoreUncertainty, subtractionDoubt, type UncertaintyBasis } from '../../../core/reading/uncertainty';

const basis: UncertaintyBasis = {
  response: 'linear',
  isSmallCamera: false,
  light: 'warm-white',
  room: 'unknown',
  ambientShare: 0.2,
  viewShare: 0.3,
  printMaskFrom: null,
  printShare: 0,
  clippedShare: 0,
  cellNoise: 0.01,
  pxPerMm: 10,
  whiteBalance: 'manual',
};

describe('[UN9] subtracted room light', () => {
  it('leaves a tenth of itself in linear photos, and more the less is known of the tone curve', () => {
    expect(subtractionDoubt(0.2, basis)).toBeWithin(0.02, 1e-12);
    // A quarter of a quarter beside a tenth.
    expect(subtractionDoubt(0.2, { ...basis, response: 'stated' })).toBeWithin(0.2 * Math.hypot(0.1, 0.0625), 1e-12);
    expect(subtractionDoubt(0.2, { ...basis, response: 'unknown' })).toBeWithin(0.2 * Math.hypot(0.1, 0.25), 1e-12);
  });

  it('nothing subtracted, nothing in doubt; the score feels what is', () => {
    expect(subtractionDoubt(0, basis)).toBe(0);
    const none = scoreUncertainty(60, { ...basis, ambientShare: 0 });
    // 0.25 points a per cent. @source UN1
    expect(scoreUncertainty(60, basis) ** 2 - none ** 2).toBeWithin(0.5 ** 2, 1e-9);
  });
});
