import { describe, expect, it } from 'vitest';
import {
  chromaticityUncertainty,
  luminanceUncertainty,
  ratioUncertainty,
  responseDoubt,
  scoreUncertainty,
  steepestUncertainty,
  variationUncertainty,
  type UncertaintyBasis,
} from '../../../core/reading/uncertainty';

const calm: UncertaintyBasis = {
  response: 'linear',
  isSmallCamera: false,
  light: 'filament',
  room: 'dark',
  ambientShare: 0,
  viewShare: 0.3,
  printMaskFrom: null,
  printShare: 0,
  clippedShare: 0,
  cellNoise: 0.005,
  pxPerMm: 14,
  whiteBalance: 'manual',
};
const gain = { noise: 0.3, lens: 1, hidden: 0, base: 0.003 } as const;

describe('scoreUncertainty', () => {
  it('[UN1] an unknown curve adds .035 E (100 - E) / 25 + .3: 3.8 points at 50', () => {
    const calmly = scoreUncertainty(50, calm);
    expect(calmly).toBeWithin(Math.hypot(0.3, 0.2, 0.2), 1e-9); // repeat, lens, no print
    expect(scoreUncertainty(50, { ...calm, response: 'unknown' })).toBeWithin(Math.hypot(calmly, 3.8), 1e-9);
  });

  it('[UN1] close to even the curve decides what is seen at all: at least 2 points, but not at 99.8', () => {
    const unknown = { ...calm, response: 'unknown' } as const;
    expect(scoreUncertainty(97, unknown)).toBeGreaterThan(2);
    expect(scoreUncertainty(99.8, unknown)).toBeLessThan(1);
  });

  const doubts: [string, Partial<UncertaintyBasis>][] = [
    ['a window that fills the frame', { viewShare: 0.7 }],
    ['a room that nobody described', { ambientShare: null, room: 'unknown' }],
    ['print found in this photo', { printMaskFrom: 'photo', printShare: 0.2 }],
    ['a little clipped', { clippedShare: 0.01 }],
    ['a stated encoding', { response: 'stated' }],
  ];
  it.each(doubts)('[UN1] %s widens it', (_, change) => {
    expect(scoreUncertainty(62, { ...calm, ...change })).toBeGreaterThan(scoreUncertainty(62, calm) + 0.05);
  });
});

describe('ratioUncertainty, variationUncertainty, steepestUncertainty', () => {
  it('[UN3] a ratio of 1 does not feel the tone curve, one of 0.4 does: 0.1 |r ln r|', () => {
    const unknown = { ...calm, response: 'unknown' } as const;
    expect(ratioUncertainty(1, unknown, gain)).toBeWithin(ratioUncertainty(1, calm, gain), 1e-12);
    const added = Math.sqrt(ratioUncertainty(0.4, unknown, gain) ** 2 - ratioUncertainty(0.4, calm, gain) ** 2);
    expect(added).toBeWithin(0.1 * 0.4 * -Math.log(0.4), 1e-9);
  });

  it('[UN3] room light, lens corners, noise and print that leans each widen a ratio', () => {
    const lit = { ...calm, ambientShare: null, room: 'lit' } as const;
    const printed = { ...calm, printMaskFrom: 'photo', printShare: 0.3 } as const;
    const plain = ratioUncertainty(0.6, calm, gain);
    expect(ratioUncertainty(0.6, lit, gain)).toBeGreaterThan(plain);
    expect(ratioUncertainty(0.6, { ...calm, viewShare: 0.6 }, gain)).toBeGreaterThan(plain);
    expect(ratioUncertainty(0.6, { ...calm, cellNoise: 0.04 }, gain)).toBeGreaterThan(plain);
    expect(ratioUncertainty(0.6, printed, { ...gain, hidden: 0.02 })).toBeGreaterThan(plain);
  });

  it('[UN3] variation and steepest change grow with the curve and with themselves', () => {
    for (const uncertainty of [variationUncertainty, steepestUncertainty]) {
      expect(uncertainty(0.4, { ...calm, response: 'unknown' })).toBeGreaterThan(uncertainty(0.4, calm));
      expect(uncertainty(3, calm)).toBeGreaterThan(uncertainty(0.3, calm));
    }
  });
});

describe('chromaticityUncertainty', () => {
  it('[UN4] narrow light is known worse than white, white worse than a filament; unknown is the widest', () => {
    const of = (light: UncertaintyBasis['light']) => chromaticityUncertainty({ ...calm, light });
    expect(of('filament')).toBeLessThan(of('warm-white'));
    expect(of('warm-white')).toBeLessThan(of('cool-white'));
    expect(of('red+green')).toBeLessThan(of('narrow-amber'));
    expect(of('unknown')).toBe(Math.max(of('narrow-amber'), of('red'), of('red+yellow-green')));
  });
  it('[UN4] automatic white balance hides the colour', () => {
    expect(chromaticityUncertainty({ ...calm, whiteBalance: 'auto' })).toBeGreaterThan(0.02);
  });
});

describe('luminanceUncertainty, responseDoubt', () => {
  it('[UN6] at least the 3 % of the exposure time; a dark glow under an unknown curve much more', () => {
    expect(luminanceUncertainty(0.5, calm)).toBeWithin(0.03, 1e-3);
    expect(luminanceUncertainty(0.05, { ...calm, response: 'unknown' })).toBeGreaterThan(0.25);
  });
  it('[UN2] no doubt about linear data, a quarter about a stated encoding', () => {
    const doubtOf = (response: UncertaintyBasis['response'], isSmallCamera: boolean) =>
      responseDoubt({ response, isSmallCamera });
    expect((['linear', 'stated', 'unknown'] as const).map((r) => doubtOf(r, false))).toEqual([0, 0.25, 1]);
    expect((['linear', 'stated', 'unknown'] as const).map((r) => doubtOf(r, true))).toEqual([0, 0.25, 2]);
  });
});
