import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createPlane, type Plane } from '../../../../core/base/plane';
import { measuredMap, scoreOfLight } from '../../../../core/advice/measured-map';
import { isGainSure, pitchFor, whyNoShade } from '../../../../core/advice/shade/check-shade';
import { gapBlur, shareWithin } from '../../../../core/advice/shade/gap-blur';
import { planShade } from '../../../../core/advice/shade/plan-shade';
import { densityOf, dotAreaOf, sourceLight, transmissionFor } from '../../../../core/advice/shade/transmission';
import { figure, missing } from '../../../../core/contract/figure';
import { drawnLight, spots } from '../../../support/drawn-maps';
import { workedExamples } from '../../../support/worked-examples';

const meanOf = ({ values }: Plane): number => values.reduce((sum, value) => sum + value, 0) / values.length;

describe('gapBlur', () => {
  it('[AV3] has the published shares within a radius', () => {
    for (const { input, expected } of workedExamples<{ g: number; r: number }, { share: number }>('psf-')) {
      expect(shareWithin(input.r, input.g)).toBeWithin(expected.share, 1e-4); // four decimals
    }
  });

  it('[AV3] spreads a point as the law says, and keeps the light', () => {
    const point = createPlane(81, 81);
    point.values[40 * 81 + 40] = 1;
    const seen = gapBlur(81, 81, 4, 1)(point);
    expect(81 * 81 * meanOf(seen)).toBeWithin(1, 1e-5);
    let within = 0;
    seen.values.forEach((value, i) => {
      if (Math.hypot((i % 81) - 40, Math.floor(i / 81) - 40) <= 8) within += value;
    });
    // radius 2 mm, gap 1 mm: 0.8; the tail beyond 8 gaps (1.5 %) is shared out, and the circle is made of squares
    expect(within).toBeWithin(shareWithin(2, 1), 0.02);
  });

  it('[AV3] leaves an even plane even, and any plane its mean', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 2, noNaN: true }), fc.integer({ min: 5, max: 20 }), (gapMm, width) => {
        const plane = drawnLight(width, 7, 2, (x, y) => 1 + 0.3 * x + (y > 3 ? 1 : 0));
        const blur = gapBlur(plane.width, plane.height, 2, gapMm);
        expect(meanOf(blur(plane)) / meanOf(plane)).toBeWithin(1, 1e-5); // single precision
        const even = blur({ ...plane, values: plane.values.map(() => 3) });
        expect(Math.max(...even.values) - Math.min(...even.values)).toBeWithin(0, 1e-5);
      }),
      { numRuns: 15 },
    );
  });
});

describe('transmissionFor', () => {
  it('[AV4] gives the worked example', () => {
    interface Input {
      readonly L: number[];
      readonly target: number;
      readonly ink_T: number;
    }
    const [{ input, expected }] = workedExamples<Input, { T: number[]; density: number[]; area: number[] }>('mask-');
    input.L.forEach((light, i) => {
      const transmission = transmissionFor(light, input.target);
      expect(transmission).toBeWithin(expected.T[i], 1e-3); // the example's own tolerance
      expect(densityOf(transmission)).toBeWithin(expected.density[i], 1e-3);
      expect(dotAreaOf(transmission, input.ink_T)).toBeWithin(expected.area[i], 1e-3);
    });
    expect(transmissionFor(1000, 1)).toBe(0.03);
  });
});

describe('sourceLight', () => {
  it('[AV5] is nearer to the light at the shade than what shows', () => {
    const source = drawnLight(24, 12, 2, spots({ xMm: 9, yMm: 6, peak: 4, sigmaMm: 2 }));
    const blur = gapBlur(source.width, source.height, 2, 1.5);
    const shown = blur(source);
    const peak = ({ values }: Plane): number => Math.max(...values);
    // 15 steps without noise
    expect(peak(sourceLight(shown, blur))).toBeWithin(peak(source), 0.12 * peak(source));
    expect(peak(shown)).toBeLessThan(0.8 * peak(source));
  });
});

describe('planShade', () => {
  it('[AV6] promises no more than a shade gives at a gap 25 % off, and at most 10 points less', () => {
    const source = drawnLight(24, 12, 4, spots({ xMm: 9, yMm: 6, peak: 2.2, sigmaMm: 3 }));
    for (const trueGapMm of [0.75, 1, 1.25]) {
      const blur = gapBlur(source.width, source.height, 4, trueGapMm);
      const light = blur(source);
      const map = measuredMap(light, 4, 24, 12);
      const before = scoreOfLight(map, light);
      const plan = planShade(map, { gapMm: 1, targetPercent: 20, style: 'halftone' }, figure(before, 2));
      const { transmission, pxPerMm } = plan;
      const fine = drawnLight(
        24,
        12,
        4,
        (x, y) => transmission.values[Math.floor(y * pxPerMm) * transmission.width + Math.floor(x * pxPerMm)],
      );
      const behind = blur({ ...source, values: source.values.map((value, i) => value * fine.values[i]) });
      const reached = scoreOfLight(map, behind);
      expect(before).toBeLessThan(65);
      expect(reached).toBeGreaterThan(plan.evennessAfter.value! - 1); // the shade is drawn in steps of half a mm
      expect(plan.evennessAfter.value!).toBeGreaterThan(reached - 10);
      expect(1 - meanOf(behind) / meanOf(light)).toBeWithin(plan.lightLoss, 0.01);
    }
  });
});

describe('the two scores of a shade', () => {
  const planFor = (peak: number, sigmaMm: number, gapMm: number) => {
    const light = drawnLight(24, 12, 4, spots({ xMm: 9, yMm: 6, peak, sigmaMm }));
    const map = measuredMap(light, 4, 24, 12);
    const before = figure(scoreOfLight(map, light), 2);
    return planShade(map, { gapMm, targetPercent: 20, style: 'halftone' }, before);
  };

  it('[AV6] on its marks it is better than at worst, and a narrow spot is worst 1 mm aside', () => {
    const plan = planFor(2.2, 2, 1);
    expect(plan.worstMount).toBe('aside');
    expect(plan.evennessOnMarks.value!).toBeGreaterThan(plan.evennessAfter.value! + 3);
  });

  it('[AV6] a wide, faint spot bears either', () => {
    const plan = planFor(1.15, 8, 1);
    expect(plan.evennessOnMarks.value! - plan.evennessAfter.value!).toBeLessThan(1);
  });

  it('[AV6] at no gap nothing is reckoned nearer or farther', () => {
    expect(['as-planned', 'aside']).toContain(planFor(2.2, 2, 0).worstMount);
  });
});

describe('whyNoShade', () => {
  it('[AV7] refuses what has no score, dots that would be seen, and a gain that is not sure', () => {
    expect(whyNoShade(missing('clipped'), 2, 'halftone')?.code).toBe('SHADE_WITHOUT_SCORE');
    expect(whyNoShade(figure(60, 3), 0.7, 'halftone')?.code).toBe('GAP_TOO_SMALL');
    expect(whyNoShade(figure(60, 3), 0.7, 'contours')).toBeNull();
    expect(whyNoShade(figure(60, 3), 0.8, 'halftone')).toBeNull();
    expect([pitchFor(0.8), pitchFor(1.5), pitchFor(4)]).toEqual([0.4, 0.75, 1]);
    expect(isGainSure(figure(97, 4), figure(98.5, 4))).toBe(false);
    expect(isGainSure(figure(60, 4), figure(90, 5))).toBe(true);
    expect(isGainSure(figure(90, 4), figure(60, 4))).toBe(false);
  });
});
