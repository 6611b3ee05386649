import { describe, expect, it } from 'vitest';
import { xBar, yBar, zBar } from '../../../samples/render/light/cmf-1931';
import { lights, planck, times, tristimulus, type Xyz } from '../../../samples/render/light/spectra';
import { transmission } from '../../../samples/render/light/materials';
import { colourResponse } from '../../../samples/render/camera/colour-response';
import { uvPrime } from '../../../samples/render/truth/colour';
import { trueFigures } from '../../../samples/render/truth/figures';
import { cellsFromLight, type GlowCells } from '../../../samples/render/truth/glow-cells';
import { temperatureOf } from '../../../samples/render/truth/planckian';
import { hotSpots } from '../../../samples/render/truth/spots';

const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);

function grey(luminance: (xMm: number, yMm: number) => number): GlowCells {
  return cellsFromLight(60, 25, { kind: 'rectangle' }, (x, y) => {
    const level = luminance(x, y);
    return [1.11 * level, level, 0.36 * level];
  });
}

const spot = (ratio: number) => grey((x, y) => 1 + (ratio - 1) * Math.exp(-((x - 30) ** 2 + (y - 12.5) ** 2) / 50));

describe('truth of the samples', () => {
  it('[SM1] the colour-matching functions sum to the published integrals at 5 nm', () => {
    // Sums times 5 nm of the same table, as computed beside the published data.
    expect(5 * sum(xBar)).toBeWithin(106.857626, 1e-6);
    expect(5 * sum(yBar)).toBeWithin(106.856639, 1e-6);
    expect(5 * sum(zBar)).toBeWithin(106.857701, 1e-6);
  });

  it('[SM6] an even window scores 100 and has no spots', () => {
    const cells = grey(() => 0.37);
    const figures = trueFigures(cells);
    expect(figures.score).toBeWithin(100, 1e-9);
    expect(figures.minOverMax).toBeWithin(1, 1e-12);
    expect(hotSpots(cells)).toEqual([]);
  });

  it('[SM6] a spot twice as bright, sigma 5 mm on 60 x 25 mm, scores 50.4', () => {
    const figures = trueFigures(spot(2));
    expect(figures.score).toBeWithin(50.4, 0.6); // the published anchor of the score
    expect(figures.leftOverRight).toBeWithin(1, 1e-9);
    expect(figures.ninePoint.values[4]).toBe(1);
  });

  it('[SM6] the score falls as the spot grows and does not feel the exposure', () => {
    const scores = [1.2, 1.5, 2.2, 4].map((ratio) => trueFigures(spot(ratio)).score);
    expect([...scores].sort((a, b) => b - a)).toEqual(scores);
    const dimmed = trueFigures(grey((x, y) => 0.013 * (1 + Math.exp(-((x - 30) ** 2 + (y - 12.5) ** 2) / 50))));
    expect(dimmed.score).toBeWithin(trueFigures(spot(2)).score, 1e-9);
  });

  it('[SM7] two alike spots are both found, where they are', () => {
    const two = grey((x, y) => 1 + [17, 44].reduce((s, at) => s + Math.exp(-((x - at) ** 2 + (y - 11) ** 2) / 18), 0));
    const found = hotSpots(two).sort((a, b) => a.xMm - b.xMm);
    expect(found).toHaveLength(2);
    // Half a cell either way.
    expect(found[0].xMm).toBeWithin(17, 0.13);
    expect(found[1].xMm).toBeWithin(44, 0.13);
    expect(found[1].yMm).toBeWithin(11, 0.13);
    expect(found[0].ratioToGlow).toBeWithin(found[1].ratioToGlow, 0.001);
  });

  it.each([1900, 2400, 2856, 4300, 6500])(
    '[SM8] light of a full radiator of %i K gets its temperature back',
    (kelvin) => {
      const { cctK, duv } = temperatureOf(tristimulus(planck(kelvin)));
      expect(cctK).toBeWithin(kelvin, 0.1);
      expect(duv).toBeWithin(0, 1e-6);
    },
  );

  it('[SM8] light greener than the locus has a positive Duv', () => {
    const [x, y, z] = tristimulus(planck(3100));
    expect(temperatureOf([x, 1.06 * y, z]).duv).toBeGreaterThan(0.002);
    expect(temperatureOf([x, 0.94 * y, z]).duv).toBeLessThan(-0.002);
  });

  it.each([
    ['filament', 0.0002, 0.002],
    ['warm-white', 0.003, 0.008],
    ['narrow-amber', 0.02, 0.055],
  ] as const)('[SM9] the everyday camera errs on %s light as cameras do', (name, least, most) => {
    const response = colourResponse('everyday');
    const spectrum = times(lights[name], transmission.base);
    const [r, g, b] = response(spectrum).map((channel) => Math.max(0, channel));
    // Linear sRGB to X, Y, Z.
    const seen: Xyz = [
      0.4124 * r + 0.3576 * g + 0.1805 * b,
      0.2126 * r + 0.7152 * g + 0.0722 * b,
      0.0193 * r + 0.1192 * g + 0.9505 * b,
    ];
    const [u, v] = uvPrime(seen);
    const [trueU, trueV] = uvPrime(tristimulus(spectrum));
    const error = Math.hypot(u - trueU, v - trueV);
    expect(error).toBeGreaterThan(least);
    expect(error).toBeLessThan(most);
  });
});
