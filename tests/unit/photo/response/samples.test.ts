import { describe, expect, it } from 'vitest';
import { sampleChannel, withoutFrame } from '../../../../core/photo/response/samples';
import { bentCurves, drawnBracket } from '../../../support/drawn-bracket';

const frames = drawnBracket(bentCurves['plain sRGB'], [0.5, 1, 2]);

describe('sampleChannel', () => {
  it('[BR1] photos in any order give the same samples, of rising exposure', () => {
    const [a, b, c] = frames;
    const samples = sampleChannel([c, a, b], 1, 160);
    expect(samples).toEqual(sampleChannel(frames, 1, 160));
    expect(samples.relExposures).toEqual([0.5, 1, 2]);
    expect(samples.codes.map((codes) => codes.length)).toEqual(Array(3).fill(samples.codes[0].length));
    expect(samples.codes[0].length).toBeWithin(2000, 1000);
  });

  it('[BR1] edges are left out: no sample mixes a dark stroke with its ground', () => {
    const step = (exposure: number) => ({
      relExposure: exposure,
      codes: Uint8Array.from({ length: 30 * 12 * 3 }, (_, i) => exposure * (Math.floor(i / 3) % 30 < 15 ? 20 : 90)),
    });
    const { codes } = sampleChannel([step(1), step(2)], 0, 30);
    expect(new Set(codes[0])).toEqual(new Set([20 / 255, 90 / 255]));
  });

  it('[BR1] photos without room for 3 x 3 pixels give none', () => {
    const tiny = { relExposure: 1, codes: new Uint8Array(2 * 2 * 3) };
    expect(sampleChannel([tiny, { ...tiny, relExposure: 2 }], 0, 2).codes[0]).toHaveLength(0);
  });
});

describe('withoutFrame', () => {
  it('[BR5] leaves out one photo with its exposure', () => {
    const samples = sampleChannel(frames, 1, 160);
    const { codes, relExposures } = withoutFrame(samples, 1);
    expect(relExposures).toEqual([0.5, 2]);
    expect(codes).toEqual([samples.codes[0], samples.codes[2]]);
  });
});
