import { describe, expect, it } from 'vitest';
import { contrastSensitivity } from '../../../core/reading/contrast-sensitivity';
import { workedExamples } from '../../support/worked-examples';

describe('contrastSensitivity', () => {
  it.each(
    workedExamples<{ u_cpd: number; L: number; A_deg2: number }, { S: number }>('csf').map((e) => [e.id, e] as const),
  )('[EV2] the worked example holds: %s', (_, { input, expected }) => {
    const sensitivity = contrastSensitivity(input.u_cpd, input.L, input.A_deg2);
    expect(sensitivity).toBeWithin(expected.S, 0.005 + 1e-6); // the answer has two decimals
  });

  it('[EV2] nothing is seen of a grating without end, and very fine ones vanish', () => {
    expect(contrastSensitivity(0, 10, 20)).toBe(0);
    expect(contrastSensitivity(80, 10, 20)).toBeLessThan(1e-2);
  });

  it('[EV2] more light and a larger field raise it', () => {
    for (const cyclesPerDeg of [0.3, 1.7, 6, 19]) {
      expect(contrastSensitivity(cyclesPerDeg, 40, 20)).toBeGreaterThan(contrastSensitivity(cyclesPerDeg, 4, 20));
      expect(contrastSensitivity(cyclesPerDeg, 10, 60)).toBeGreaterThan(contrastSensitivity(cyclesPerDeg, 10, 6));
    }
  });
});
