import { describe, expect, it } from 'vitest';
import { sharpeningsOf } from '../../../core/compare/sharpening';
import { madeUpShown, type MadeUp } from './made-up-windows';

const of = (figure: 'evenness' | 'colour', ...windows: Partial<MadeUp>[]) =>
  sharpeningsOf(
    figure,
    windows.map((one, i) => madeUpShown({ name: `t${i}`, ...one })),
  );

describe('sharpeningsOf', () => {
  it('[PR9] nothing helps when the photos are as good as they get', () => {
    expect(of('evenness', {}, {})).toEqual([]);
  });

  it('[PR9] names what widens the plus-minus, the cheapest first', () => {
    const jpeg: Partial<MadeUp> = { basis: { response: 'unknown', room: 'unknown', ambientShare: null } };
    expect(of('evenness', jpeg, { camera: { exposureS: 0.4 } })).toEqual(['darkRoom', 'sameExposure', 'curve']);
    expect(of('evenness', {}, { leftPx: 1900 })).toEqual(['sameView']);
    expect(of('colour', { basis: { whiteBalance: 'auto' } }, jpeg)).toEqual(['darkRoom', 'whiteBalance']);
  });
});
