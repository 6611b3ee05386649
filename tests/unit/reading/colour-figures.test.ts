import { describe, expect, it } from 'vitest';
import { xyzFromXy } from '../../../core/colour/chromaticity';
import { linearSrgbFromXyz } from '../../../core/colour/spaces';
import { xyFromUv1976 } from '../../../core/colour/chromaticity';
import { chromaticityPlanes, colourFigures } from '../../../core/reading/colour-figures';
import { glowMean } from '../../../core/reading/luminance';
import { drawGlowMap } from './draw-glow';

/** Linear sRGB of a chromaticity at a luminance. */
const rgbOf = (uPrime: number, vPrime: number, relLuminance: number) =>
  linearSrgbFromXyz(xyzFromXy(xyFromUv1976({ uPrime, vPrime }), relLuminance));

describe('colourFigures', () => {
  it('[CF1] light of a 2400 K black body reads 2400 K, on the locus', () => {
    // xy of the published Planck table at 2400 K, four decimals
    const rgb = linearSrgbFromXyz(xyzFromXy({ x: 0.4861, y: 0.4147 }, 0.3));
    const figures = colourFigures(drawGlowMap(20, 10, () => rgb))!;
    expect(figures.xy.x).toBeWithin(0.4861, 1e-6);
    expect(figures.xy.y).toBeWithin(0.4147, 1e-6);
    expect(figures.uv.uPrime).toBeWithin(0.2776, 1e-4); // four decimals, from rounded xy
    expect(figures.uv.vPrime).toBeWithin(0.5329, 1e-4);
    expect(figures.cctK).toBeWithin(2400, 2); // 0.0001 in x is 1.2 K
    expect(figures.duv).toBeWithin(0, 1e-4);
    expect(figures.spreadUv).toBeWithin(0, 1e-6);
    expect(figures.gradientUvPer10Mm).toBeWithin(0, 1e-6);
  });

  it('[CF1] the mean is of the light: a bright place weighs more', () => {
    const figures = colourFigures(
      drawGlowMap(20, 10, (x) => (x < 10 ? rgbOf(0.25, 0.5, 0.1) : rgbOf(0.29, 0.54, 0.4))),
    )!;
    // Weights Y/v' : 0.2 and 0.7407
    const share = 0.4 / 0.54 / (0.4 / 0.54 + 0.1 / 0.5);
    expect(figures.uv.uPrime).toBeWithin(0.25 + 0.04 * share, 1e-6);
    expect(figures.uv.vPrime).toBeWithin(0.5 + 0.04 * share, 1e-6);
    expect(figures.xyz[1]).toBeWithin(0.25, 1e-6);
  });

  it('[CF3] a colour that changes evenly: gradient known in any direction, spread of a ramp', () => {
    const slope = 0.0006;
    const at = (x: number, y: number) => rgbOf(0.24 + slope * (0.6 * x + 0.8 * y), 0.51, 0.3);
    const figures = colourFigures(drawGlowMap(24, 14, at))!;
    expect(figures.gradientUvPer10Mm).toBeWithin(10 * slope, 2e-5); // cells are means of light, not of u'
    const alongX = colourFigures(
      drawGlowMap(42, 4, (x) => rgbOf(0.24 + slope * x, 0.52 - 0.5 * slope * x, 0.3), undefined, 1),
    )!;
    expect(alongX.gradientUvPer10Mm).toBeWithin(10 * slope * Math.hypot(1, 0.5), 2e-5);
  });

  it('[CF2] spread: two halves of equal light lie half their distance from the mean', () => {
    const figures = colourFigures(drawGlowMap(20, 10, (x) => rgbOf(x < 10 ? 0.25 : 0.27, 0.5, 0.2)))!;
    expect(figures.spreadUv).toBeWithin(0.01, 1e-6);
  });

  it('[CF1] far from the locus there is Duv but no colour temperature', () => {
    const figures = colourFigures(drawGlowMap(20, 10, () => rgbOf(0.12, 0.55, 0.2)))!;
    expect(figures.cctK).toBeNull();
    expect(figures.duv).toBeGreaterThan(0.05);
  });

  it('[CF1] no glow, or a black one: null', () => {
    expect(
      colourFigures(
        drawGlowMap(
          20,
          10,
          () => [0.3, 0.2, 0.1],
          () => true,
        ),
      ),
    ).toBeNull();
    expect(colourFigures(drawGlowMap(20, 10, () => [0, 0, 0]))).toBeNull();
  });
});

describe('chromaticityPlanes', () => {
  it('[CF4] every glow cell has its own chromaticity, others and black cells NaN', () => {
    const map = drawGlowMap(9, 5, (x, y) =>
      x > 7 && x < 7.25 ? [0, 0, 0] : rgbOf(0.2 + 0.01 * x, 0.45 + 0.01 * y, 0.3),
    );
    const { uPrime, vPrime } = chromaticityPlanes(map);
    for (let i = 0; i < uPrime.values.length; i++) {
      const [x, y] = [((i % 36) + 0.5) / 4, (Math.floor(i / 36) + 0.5) / 4];
      if (map.glow.values[i] && !(x > 7 && x < 7.25)) {
        expect(uPrime.values[i]).toBeWithin(0.2 + 0.01 * x, 1e-6);
        expect(vPrime.values[i]).toBeWithin(0.45 + 0.01 * y, 1e-6);
      } else expect([uPrime.values[i], vPrime.values[i]]).toEqual([NaN, NaN]);
    }
  });
});

describe('glowMean', () => {
  it('[LU3] the mean over the glow alone; null without glow', () => {
    const map = drawGlowMap(12, 6, (x) => (x < 1 ? [9, 9, 9] : [0.2, 0.2, 0.2]));
    expect(glowMean(map)).toBeWithin(0.2, 1e-6);
    expect(
      glowMean(
        drawGlowMap(
          12,
          6,
          () => [0.2, 0.3, 0.4],
          () => true,
        ),
      ),
    ).toBeNull();
  });
});
