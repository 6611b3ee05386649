import { describe, expect, it } from 'vitest';
import { createMask } from '../../../../core/base/plane';
import { flattenedLight, shareKept } from '../../../../core/reading/checks/flattened-light';
import { fitWave, taperedProfile, waveShare, waveSize } from '../../../../core/reading/checks/profile-wave';
import { drawLight } from '../draw-glow';

const places = 97;
const wave = (cycles: number, cosine: number, sine: number, offset = 0) =>
  Float64Array.from({ length: places }, (_, i) => {
    const angle = (2 * Math.PI * cycles * (i + 0.5)) / places;
    return offset + cosine * Math.cos(angle) + sine * Math.sin(angle);
  });

describe('fitWave', () => {
  it.each([
    [5, 0.3, -0.2],
    [7.4, -0.01, 0.06],
    [21.3, 0, 1.7],
  ])('[CK2] gives a wave of %d cycles back, also with a mean and with gaps', (cycles, cosine, sine) => {
    const counts = Float64Array.from({ length: places }, (_, i) => (i % 9 < 3 ? 0 : 1 + (i % 4)));
    const sums = wave(cycles, cosine, sine, 0.8).map((light, i) => light * counts[i]);
    const fitted = fitWave(taperedProfile(sums, counts), cycles);
    // Exact but for the last digits.
    expect(fitted.cosine).toBeWithin(cosine, 1e-9);
    expect(fitted.sine).toBeWithin(sine, 1e-9);
  });

  it('[CK2] a wave leaks less than 4 % into those 2 to 3 cycles away, and is itself in full', () => {
    const profile = taperedProfile(wave(11, 0.4, 0.3), new Float64Array(places).fill(1));
    expect(waveSize(fitWave(profile, 11))).toBeWithin(0.5, 1e-9);
    for (const away of [-3, -2.5, -2, 2, 2.5, 3]) expect(waveSize(fitWave(profile, 11 + away))).toBeLessThan(0.02);
  });

  it('[CK2] says zero when too little was seen', () => {
    expect(fitWave({ means: Float64Array.of(1, 2, 3), weights: Float64Array.of(0, 1, 0) }, 1)).toEqual({
      cosine: 0,
      sine: 0,
    });
    expect(fitWave({ means: new Float64Array(0), weights: new Float64Array(0) }, 4)).toEqual({ cosine: 0, sine: 0 });
  });
});

describe('waveShare', () => {
  it('[CK2] 1 for the same wave, -1 for the opposite, 0 for a quarter off, 0.5 for half of it', () => {
    const whole = { cosine: 0.3, sine: 0.4 };
    const others = [whole, { cosine: -0.3, sine: -0.4 }, { cosine: 0.4, sine: -0.3 }, { cosine: 0.15, sine: 0.2 }];
    expect(others.map((one) => waveShare(one, whole))).toEqual([1, -1, 0, 0.5]);
  });
});

describe('flattenedLight', () => {
  const whole = (width: number, height: number) => createMask(width, height, 1);

  it('[CK2] even light is flat, and a wave keeps what shareKept says', () => {
    const even = drawLight(30, 12, 4, () => 0.37);
    expect(Math.max(...flattenedLight(even, whole(120, 48), 8).light.values.map(Math.abs))).toBeLessThan(1e-6);
    const waves = drawLight(60, 12, 4, (x) => Math.exp(0.05 * Math.cos((2 * Math.PI * x) / 7.5)));
    const { light } = flattenedLight(waves, whole(240, 48), 6);
    // Far from the ends, a crest at 30 mm (cell 119.5): 0.2 % for the crest between two cells.
    expect(light.values[24 * 240 + 119]).toBeWithin(0.05 * shareKept(6 / 30), 2e-4);
  });

  it('[CK2] counts only cells all of whose neighbours glow, and only light above zero', () => {
    const plane = drawLight(3, 2, 4, (x) => (x > 1.5 && x < 1.75 ? 0 : 0.5));
    const glow = whole(12, 8);
    glow.values[3 * 12 + 3] = 0;
    const { cells, light } = flattenedLight(plane, glow, 2);
    expect([...cells.values.slice(3 * 12, 4 * 12)]).toEqual([0, 1, 0, 0, 0, 1, 0, 1, 1, 1, 1, 0]);
    expect([...cells.values.slice(0, 12)]).toEqual(new Array(12).fill(0));
    expect(light.values[0]).toBe(0);
  });
});
