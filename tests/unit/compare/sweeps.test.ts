import { describe, expect, it } from 'vitest';
import { sweepsOf } from '../../../core/compare/sweeps';
import type { SeriesTrial } from '../../../core/contract/series';

type Lamp = NonNullable<SeriesTrial['lamps']>[number];

const trial = (name: string, lamps: Lamp[], light: SeriesTrial['light'] = 'warm-white'): SeriesTrial => ({
  name,
  photos: [{ file: `${name}.jpg` }],
  light,
  lamps,
});
const left = (z: number, currentMa = 10): Lamp => ({
  name: 'left',
  positionMm: [23, 9, z],
  tiltDeg: [0, 5],
  currentMa,
});
const right = (x: number): Lamp => ({ name: 'right', positionMm: [x, 8, 11] });

describe('sweepsOf', () => {
  it('[PR6] trials that differ in one coordinate of one lamp, by rising value; equal values are one step', () => {
    const trials = [
      trial('far', [left(20), right(61)]),
      trial('near', [right(61), left(8)]),
      trial('middle', [left(14), right(61)]),
      trial('near again', [left(8), right(61)]),
    ];
    expect(sweepsOf(trials)).toEqual([
      {
        lamp: 'left',
        coordinate: 'z mm',
        steps: [
          { value: 8, trials: ['near', 'near again'] },
          { value: 14, trials: ['middle'] },
          { value: 20, trials: ['far'] },
        ],
      },
    ]);
  });

  it('[PR6] two lamps, each swept from the same first trial', () => {
    const trials = [
      trial('a', [left(8), right(61)]),
      trial('b', [left(8, 4), right(61)]),
      trial('c', [left(8), right(72)]),
    ];
    expect(sweepsOf(trials).map(({ lamp, coordinate }) => [lamp, coordinate])).toEqual([
      ['left', 'current mA'],
      ['right', 'x mm'],
    ]);
  });

  it('[PR6] no sweep: two changes at once, another kind of light, a lamp switched off, nothing stated', () => {
    const first = trial('first', [left(8)]);
    expect(sweepsOf([first, trial('both', [left(12, 4)])])).toEqual([]);
    expect(sweepsOf([first, trial('cool', [left(12)], 'cool-white')])).toEqual([]);
    expect(sweepsOf([first, trial('off', [{ ...left(12), on: false }])])).toEqual([]);
    expect(
      sweepsOf([first, trial('unplaced', [{ name: 'left' }]), { name: 'bare', photos: [{ file: 'b.jpg' }] }]),
    ).toEqual([]);
    expect(sweepsOf([])).toEqual([]);
  });
});
