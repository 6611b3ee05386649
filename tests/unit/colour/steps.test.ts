import { describe, expect, test } from 'vitest';
import { bandFromSteps, stepsFromUvDistance, uvDistance } from '../../../core/colour/steps';
import { uvStep } from '../../../core/colour/constants';
import { stepNote, stepNoteFor } from '../../../core/display/step-note';
import { workedExamples } from '../../support/worked-examples';

describe('steps', () => {
  test("[CO11] the distance is Euclid in u'v', symmetric, NaN where there is no colour", () => {
    const [a, b] = [
      { uPrime: 0.27, vPrime: 0.53 },
      { uPrime: 0.273, vPrime: 0.526 },
    ];
    expect(uvDistance(a, b)).toBeWithin(0.005, 1e-15);
    expect(uvDistance(b, a)).toBe(uvDistance(a, b));
    expect(uvDistance(a, { uPrime: NaN, vPrime: NaN })).toBeNaN();
  });

  test('[CO11] each band holds its upper edge', () => {
    const edges = [0, 1, 1.001, 3, 3.001, 5, 5.001, 80].map(bandFromSteps);
    expect(edges).toEqual(['same', 'same', 'close', 'close', 'visible', 'visible', 'different', 'different']);
    // rounding of a distance made by 3 x 0.0011 must not tip the word
    expect([1 + 1e-12, 3 + 1e-12, 5 + 1e-12].map(bandFromSteps)).toEqual(['same', 'close', 'visible']);
  });

  test('[CO11] no word without a distance', () => {
    expect(() => bandFromSteps(NaN)).toThrow(RangeError);
    expect(() => bandFromSteps(-0.1)).toThrow(RangeError);
  });

  test('[CO13] the sentence about steps holds the step and the edges of the bands, and stands where steps are counted only', () => {
    const edges = [1, 3, 5].map((edge) => [edge, bandFromSteps(edge), bandFromSteps(edge + 0.01)]);
    expect(edges).toEqual([
      [1, 'same', 'close'],
      [3, 'close', 'visible'],
      [5, 'visible', 'different'],
    ]);
    expect(stepNote).toContain(`is ${uvStep} in u'v': one is not seen`);
    expect(stepNote).toMatch(/up to three look close, up to five show .*, and more is another colour/);
    expect(stepNoteFor('close to the filament, about 2 steps')).toBe(stepNote);
    expect(stepNoteFor('not told apart; not certifiable below 10 steps')).toBe(stepNote);
    expect(stepNoteFor('redder than the filament')).toBeNull();
  });

  test.each(workedExamples<{ duv: number }, { steps: number; band: string }>('steps-'))('[CO11] $id', (example) => {
    const steps = stepsFromUvDistance(example.input.duv);
    expect(steps).toBeWithin(example.expected.steps, example.tolerance as number);
    expect(bandFromSteps(steps)).toBe(example.expected.band);
  });
});
