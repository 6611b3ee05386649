import { beforeAll, describe, expect, it } from 'vitest';
import { linearFromSrgb } from '../../../../core/colour/transfer';
import { fitPolynomial, isMonotone, lightOfCode } from '../../../../core/photo/response/polynomial';
import { recoverResponse, type RecoveredResponse } from '../../../../core/photo/response/recover';
import { sampleChannel } from '../../../../core/photo/response/samples';
import { bentCurves, drawnBracket, oneEvSteps, type BentCurve } from '../../../support/drawn-bracket';

const plain = [linearFromSrgb, linearFromSrgb, linearFromSrgb] as const;
const recover = (curve: BentCurve, exposures: readonly number[] = oneEvSteps): ReturnType<typeof recoverResponse> =>
  recoverResponse(drawnBracket(curve, exposures), 160, plain);

describe.each(Object.entries(bentCurves))('recoverResponse, %s', (name, curve) => {
  let recovered: RecoveredResponse;
  beforeAll(() => {
    const found = recover(curve);
    if ('refused' in found) throw new Error(found.refused);
    recovered = found;
  });

  it('[BR5] tells exposures left out of the fit within 3 %, and at least twice as well as plain sRGB where the curve bends', () => {
    expect(recovered.leftOutError).toBeLessThan(0.03);
    if (name !== 'plain sRGB') expect(recovered.leftOutError).toBeLessThan(recovered.plainError / 2);
  });

  it('[BR2] the curve is the true one: ln light within 4 % rms over the codes that merging trusts most', () => {
    const apart: number[] = [];
    for (let code = 20; code <= 240; code++) {
      apart.push(Math.log(lightOfCode(recovered.response.green, code / 255) / curve.lightOf(code / 255)));
    }
    const mean = apart.reduce((sum, value) => sum + value, 0) / apart.length;
    const rms = Math.sqrt(apart.reduce((sum, value) => sum + (value - mean) ** 2, 0) / apart.length);
    expect(rms).toBeLessThan(0.04); // what a cubic or quartic can follow of these curves, noise of 8-bit codes included
  });

  it('[BR3] the log-response agrees within 6 %', () => {
    expect(recovered.apartFromLogResponse).toBeLessThan(0.06);
  });
});

describe('recoverResponse', () => {
  it('[BR4] codes that are light: linear, and told as well as the codes can be', () => {
    const found = recover({ codeOf: (light) => light, lightOf: (code) => code }, [0.5, 1, 2, 4]);
    expect(found).toMatchObject({ response: { isLinear: true, green: [0, 1] } });
    expect('refused' in found ? 1 : found.leftOutError).toBeLessThan(0.03);
  });

  it('[BR2] a channel that stays dim takes the curve of one that is told', () => {
    const found = recover(bentCurves['S curve 0.5'], [0.5, 1, 2]);
    expect(found).toMatchObject({ borrowing: ['blue'] });
    if (!('refused' in found)) expect([found.response.red, found.response.green]).toContainEqual(found.response.blue);
  });

  it('[BR2] photos that are dim throughout tell nothing', () => {
    expect(recover(bentCurves.shoulder, [0.02, 0.04, 0.08])).toEqual({
      refused: 'no channel has codes from dim (60 of 255) to bright (200) in places without edges',
    });
  });

  it('[BR5] a photo whose exposure is not what it says is refused', () => {
    const [a, b, c, d] = drawnBracket(bentCurves['S curve 0.5']);
    const found = recoverResponse([a, { ...b, relExposure: 0.7 }, c, d], 160, plain);
    expect(found).toMatchObject({ refused: expect.stringMatching(/^(a photo left out|no tone curve)/) as string });
  });
});

describe('fitPolynomial', () => {
  it('[BR2] light of full scale is 1 in either degree', () => {
    const samples = sampleChannel(drawnBracket(bentCurves.shoulder), 1, 160);
    for (const degree of [3, 4] as const) expect(lightOfCode(fitPolynomial(samples, degree)!, 1)).toBeWithin(1, 1e-9);
  });

  it('[BR2] a curve that falls anywhere is not monotone', () => {
    expect(isMonotone([0, 0, 1])).toBe(true);
    expect(isMonotone([0, 2.2, -1.2])).toBe(false); // falls from 0.92 on
    expect(isMonotone([-0.02, 0.9, 0.12])).toBe(false); // below 0 at code 4
  });
});
