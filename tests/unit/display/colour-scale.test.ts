import { describe, expect, it } from 'vitest';
import {
  differenceColour,
  linearFromEncoded,
  linearFromOklab,
  luminanceColour,
  oklabFromLinear,
  rgbFromOklab,
  type Oklab,
} from '../../../core/display/colour-scale';

const shares = Array.from({ length: 25 }, (_, i) => i / 24);

/** What a screen shows: through 8-bit sRGB and back. */
function shown(colour: Oklab): Oklab {
  const [r, g, b] = rgbFromOklab(colour).map((code) => linearFromEncoded(code / 255));
  return oklabFromLinear([r, g, b]);
}

function stepsOf(colours: readonly Oklab[]): number[] {
  return colours.slice(1).map((to, i) => Math.hypot(...to.map((value, axis) => value - colours[i][axis])));
}

function spreadOf(steps: readonly number[]): number {
  const mean = steps.reduce((sum, step) => sum + step, 0) / steps.length;
  return Math.sqrt(steps.reduce((sum, step) => sum + (step - mean) ** 2, 0) / steps.length) / mean;
}

describe.each([
  ['luminance', luminanceColour],
  ['difference', (share: number) => differenceColour(2 * share - 1)],
])('the %s scale', (_, colour) => {
  it('[MP3] stays inside sRGB, so that no screen clips it', () => {
    const light = shares.flatMap((share) => linearFromOklab(colour(share)));
    expect(Math.min(...light)).toBeGreaterThanOrEqual(0);
    expect(Math.max(...light)).toBeLessThanOrEqual(1);
  });

  it('[MP3] has equal steps as seen: their deviation is 6 % of their mean at most, rounding to 8 bits included', () => {
    expect(spreadOf(stepsOf(shares.map((share) => shown(colour(share)))))).toBeLessThanOrEqual(0.06);
  });

  it('[MP3] gets lighter at every step', () => {
    const lightness = shares.map((share) => shown(colour(share))[0]);
    expect(lightness.slice(1).every((value, i) => value > lightness[i])).toBe(true);
  });
});

describe('both scales', () => {
  it('[MP3] run 0.22 to 0.96 in lightness, and are neutral grey in the middle', () => {
    expect(luminanceColour(-3)[0]).toBeWithin(0.22, 1e-12); // sums of doubles
    expect(luminanceColour(7)[0]).toBeWithin(0.96, 1e-12);
    const [r, g, b] = rgbFromOklab(differenceColour(0));
    expect([r - g, g - b]).toEqual([0, 0]);
  });
});

describe('oklabFromLinear', () => {
  it('[MP3] is the inverse of linearFromOklab, and white is 1, 0, 0', () => {
    const light: [number, number, number] = [0.1, 0.72, 0.35];
    oklabFromLinear(light).forEach((_, i) => {
      expect(linearFromOklab(oklabFromLinear(light))[i]).toBeWithin(light[i], 1e-6); // matrices have 10 digits
    });
    oklabFromLinear([1, 1, 1]).forEach((value, i) => expect(value).toBeWithin([1, 0, 0][i], 1e-6));
  });
});
