import { describe, expect, it } from 'vitest';
import { luminanceRatioUncertainty } from '../../../core/photo/exposure';

const exposure = { exposureS: 1 / 30, fNumber: 4, iso: 400 };

describe('luminanceRatioUncertainty', () => {
  it.each([
    ['equal settings', {}, 0.03],
    ['another time', { exposureS: 1 / 60 }, 0.08],
    ['another f-number', { fNumber: 5.6 }, 0.08],
    ['another sensitivity', { iso: 800 }, 0.08],
  ])('[LU11] %s', (_settings, other, expected) => {
    // The rule is stated in whole per cent.
    expect(luminanceRatioUncertainty(exposure, { ...exposure, ...other })).toBeWithin(expected, 0.005);
  });

  it('[LU11] refuses an impossible exposure', () => {
    expect(() => luminanceRatioUncertainty(exposure, { ...exposure, iso: 0 })).toThrow(RangeError);
  });
});
