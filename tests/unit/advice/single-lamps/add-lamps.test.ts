import { describe, expect, it } from 'vitest';
import { addLamps, bestCurrents, type SingleLamp } from '../../../../core/advice/single-lamps/add-lamps';
import { AppError } from '../../../../core/base/errors';
import { figure } from '../../../../core/contract/figure';
import { halvedMap, scoreOfLight } from '../../../../core/advice/measured-map';
import { drawnMap } from '../../../support/drawn-maps';

/** A lamp 10 mm behind the scale over a little even light. */
const lampAt =
  (xMm: number, strength: number) =>
  (x: number, y: number): number =>
    strength * (Math.pow(1 + ((x - xMm) ** 2 + (y - 6) ** 2) / 100, -2) + 0.1);
const single = (name: string, at: (x: number, y: number) => number): SingleLamp => ({
  name,
  score: figure(40, 1),
  map: drawnMap(40, 12, at),
});
const left = single('left', lampAt(9, 1));
const right = single('right', lampAt(31, 0.5));

const codeOf = (act: () => unknown): string => {
  try {
    act();
  } catch (error) {
    if (error instanceof AppError) return error.code;
    throw error;
  }
  return 'done';
};

describe('addLamps', () => {
  it('[SL1] gives what both lamps show together, at any ratio', () => {
    for (const ratios of [[1, 1], [1, 1.7]]) {
      const both = halvedMap(drawnMap(40, 12, (x, y) => ratios[0] * lampAt(9, 1)(x, y) + ratios[1] * lampAt(31, 0.5)(x, y)));
      const sum = addLamps([left, right], ratios);
      // single precision, and the rim that each map fills in by itself
      expect(sum.evenness.value!).toBeWithin(scoreOfLight(both, both.light), 0.05);
    } // prettier-ignore
  });

  it('[SL1] does not feel a common factor, nor the order of the lamps', () => {
    const one = addLamps([left, right], [1, 1.7]).evenness.value!;
    expect(addLamps([left, right], [2, 3.4]).evenness.value!).toBeWithin(one, 1e-3);
    expect(addLamps([right, left], [1.7, 1]).evenness.value!).toBeWithin(one, 1e-3);
  });

  it('[SL1] refuses what cannot be added', () => {
    expect(codeOf(() => addLamps([left], [1]))).toBe('LAMPS_TOO_FEW');
    expect(codeOf(() => addLamps([left, right], [1]))).toBe('RATIOS_INVALID');
    expect(codeOf(() => addLamps([left, { ...right, map: drawnMap(41, 12, lampAt(31, 1)) }], [1, 1]))).toBe(
      'LAMPS_OF_OTHER_SIZES',
    );
    const unknown = { ...right, map: { ...right.map, isExposureNormalised: false } };
    expect(codeOf(() => bestCurrents([left, unknown]))).toBe('LAMPS_EXPOSURE_UNKNOWN');
  });
});

describe('bestCurrents', () => {
  it('[SL2] makes good a lamp of half the light, within its plus-minus', () => {
    const { ratioFigures, evenness } = bestCurrents([left, right]);
    const [, { value, plusMinus }] = ratioFigures;
    expect(value!).toBeWithin(2, 0.1); // finest step 4 %; the window is symmetrical
    expect(plusMinus!).toBeGreaterThan(0.02);
    expect(evenness.value!).toBeGreaterThan(addLamps([left, right], [1, 1]).evenness.value! + 2);
  });
});
