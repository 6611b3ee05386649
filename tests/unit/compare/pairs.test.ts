import { describe, expect, it } from 'vitest';
import {
  differenceUncertainty,
  leastIndexDifference,
  leastScoreDifference,
  tellApart,
} from '../../../core/compare/pairs';
import { workedExamples } from '../../support/worked-examples';

interface Input {
  readonly d: number;
  readonly u1: number;
  readonly u2: number;
  readonly rho: number;
}

describe('tellApart', () => {
  it.each(workedExamples<Input, { u_d: number; told_apart: boolean }>('differ').map((e) => [e.id, e] as const))(
    '[PR1] %s',
    (_, { input: { d, u1, u2, rho }, expected }) => {
      const a = { value: 61.5, uncertainty: u1 };
      const b = { value: 61.5 + d, uncertainty: u2 };
      const result = tellApart(a, b, rho, leastScoreDifference);
      expect(result.difference).toBeWithin(d, 1e-12);
      expect(result.uncertainty).toBeWithin(expected.u_d, 5e-4);
      expect(result.toldApart).toBe(expected.told_apart);
      expect(tellApart(b, a, rho, leastScoreDifference)).toEqual({ ...result, difference: -result.difference });
    },
  );

  it('[PR1] both limits count: small but certain is not told apart, nor large but uncertain', () => {
    const sure = (value: number) => ({ value, uncertainty: 0.1 });
    expect(tellApart(sure(50), sure(51.9), 0, leastScoreDifference).toldApart).toBe(false);
    expect(tellApart(sure(50), sure(52), 0, leastScoreDifference).toldApart).toBe(true);
    expect(tellApart(sure(50), { value: 62, uncertainty: 6 }, 0, leastScoreDifference).toldApart).toBe(false);
    expect(tellApart(sure(90), sure(97), 0, leastIndexDifference).toldApart).toBe(false);
  });

  it('[PR1] shared error cancels: wholly for equal uncertainties, never below 0', () => {
    expect(differenceUncertainty(1.7, 1.7, 1)).toBeWithin(0, 1e-7);
    expect(differenceUncertainty(0.3, 0.4, 0)).toBeWithin(0.5, 1e-12);
    expect(differenceUncertainty(1.2, 0.4, 0.8)).toBeLessThan(differenceUncertainty(1.2, 0.4, 0));
  });
});
