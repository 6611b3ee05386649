import { describe, expect, it } from 'vitest';
import { judgeLinear } from '../../../../core/photo/response/linear-verdict';
import { sampleChannel } from '../../../../core/photo/response/samples';
import { bentCurves, drawnBracket, type BentCurve } from '../../../support/drawn-bracket';

const verdictOf = (curve: BentCurve) => judgeLinear(sampleChannel(drawnBracket(curve), 1, 160));
const linear: BentCurve = { codeOf: (light) => light, lightOf: (code) => code };

describe('judgeLinear', () => {
  it('[BR4] codes that are light are linear', () => expect(verdictOf(linear)?.isLinear).toBe(true));

  it.each(Object.entries(bentCurves))('[BR4] codes of a curve are not: %s', (_, curve) =>
    expect(verdictOf(curve)?.isLinear).toBe(false),
  );

  it('[BR4] 79 pairs of 100 within 5 % are not linear, 80 are; fewer than 100 tell nothing', () => {
    const judge = (agreeing: number, all = 100) =>
      judgeLinear({
        codes: [
          new Float64Array(all).fill(0.2),
          Float64Array.from({ length: all }, (_, i) => (i < agreeing ? 0.41 : 0.44)),
        ],
        relExposures: [1, 2],
      });
    expect(judge(79)).toEqual({ share: 0.79, isLinear: false });
    expect(judge(80)).toEqual({ share: 0.8, isLinear: true });
    expect(judge(99, 99)).toBeNull();
  });
});
