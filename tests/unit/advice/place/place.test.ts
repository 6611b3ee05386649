import { describe, expect, it } from 'vitest';
import { fitLamps, whyNoFit } from '../../../../core/advice/place/fit-lamps';
import { bestPlace, forecastMove, together } from '../../../../core/advice/place/forecast-move';
import { modelLight, type LampModel, type ModelLamp } from '../../../../core/advice/place/lamp-model';
import { halvedMap, scoreOfLight } from '../../../../core/advice/measured-map';
import { figure } from '../../../../core/contract/figure';
import { drawnMap } from '../../../support/drawn-maps';
import { workedExamples } from '../../../support/worked-examples';

const lamp = (more: Partial<ModelLamp>): ModelLamp => ({ xMm: 15, yMm: 8, depthMm: 10, lobe: 1.5, slopes: [0, 0], strength: 1, ...more }); // prettier-ignore
const mapOf = (model: LampModel) => halvedMap(drawnMap(40, 16, (x, y) => modelLight(model, x, y)));
const measured = figure(40, 1);
const one: LampModel = { lamps: [lamp({})], boxLight: 0.15 };

describe('modelLight', () => {
  it('[PL1] gives the worked example', () => {
    const [{ input, expected }] = workedExamples<{ points: [number, number][] }, { L: number[] }>('ledmodel');
    const model = { lamps: [lamp({ xMm: 25, yMm: 12 })], boxLight: 0.15 };
    input.points.forEach(([x, y], i) => expect(modelLight(model, x, y)).toBeWithin(expected.L[i], 1e-4));
  });
});

describe('fitLamps', () => {
  it('[PL2] finds a lamp again', () => {
    const { model, rms } = fitLamps(mapOf(one), 1);
    // our own experiment: within half a mm and 3 % of the depth
    expect(model.lamps[0].xMm).toBeWithin(15, 0.5);
    expect(model.lamps[0].yMm).toBeWithin(8, 0.5);
    expect(model.lamps[0].depthMm).toBeWithin(10, 0.5);
    expect(rms).toBeLessThan(0.02);
  });

  it('[PL3] refuses two lamps under a model of one, and a flat window', () => {
    const two = { lamps: [lamp({ xMm: 8 }), lamp({ xMm: 32 })], boxLight: 0.1 };
    expect(whyNoFit(fitLamps(mapOf(two), 1))).not.toBeNull();
    const flat = halvedMap(drawnMap(40, 16, (x, y) => 1 + 0.01 * (((x * 7 + y * 13) % 5) / 5)));
    expect(whyNoFit(fitLamps(flat, 1))?.code).toBe('LAMPS_NOT_SEEN');
    expect(whyNoFit(fitLamps(mapOf(one), 1))).toBeNull();
  });
});

describe('forecastMove', () => {
  it('[PL4] holds the true score of a lamp moved, within its plus-minus', () => {
    const map = mapOf(one);
    const fit = fitLamps(map, 1);
    for (const byMm of [[6, 0, 0], [0, -4, 0], [0, 0, 10]] as const) {
      const depthMm = 10 + byMm[2];
      const moved = lamp({ xMm: 15 + byMm[0], yMm: 8 + byMm[1], depthMm, strength: (10 / depthMm) ** 2 });
      const truth = mapOf({ ...one, lamps: [moved] });
      const { evenness } = forecastMove(map, fit, together([0], byMm), measured);
      expect(Math.abs(evenness.value! - scoreOfLight(truth, truth.light))).toBeLessThan(evenness.plusMinus!);
      expect(evenness.plusMinus!).toBeLessThan(8);
    } // prettier-ignore
  });
});

describe('bestPlace', () => {
  it('[PL5] stays within its limits and does not lose', () => {
    const map = mapOf(one);
    const fit = fitLamps(map, 1);
    const byMm = bestPlace(map, fit, [0], { x: [10, 30], y: [4, 12], z: [8, 20] });
    const at = byMm.map(
      (by, i) => by + [fit.model.lamps[0].xMm, fit.model.lamps[0].yMm, fit.model.lamps[0].depthMm][i],
    );
    expect(at[0]).toBeWithin(20, 10.001);
    expect(at[1]).toBeWithin(8, 4.001);
    expect(at[2]).toBeWithin(14, 6.001);
    expect(forecastMove(map, fit, together([0], byMm), measured).evenness.value!).toBeGreaterThan(
      scoreOfLight(map, map.light),
    );
  });

  it('[PL5] moves two lamps the same way, each within the limits; refuses limits that cannot hold both', () => {
    const two: LampModel = { lamps: [lamp({ xMm: 10, depthMm: 7 }), lamp({ xMm: 30, depthMm: 7 })], boxLight: 0.2 };
    const map = mapOf(two);
    const fit = fitLamps(map, 2);
    const limits = { x: [8, 32], y: [4, 12], z: [5, 16] } as const;
    const byMm = bestPlace(map, fit, [0, 1], limits);
    // Straight back gains most: the depths are within a few tenths of 7 mm, and 16 is the limit.
    expect(byMm[2]).toBeWithin(9, 1);
    const depths = [7, 7].map((mm) => mm + byMm[2]);
    const moved: LampModel = {
      ...two,
      lamps: two.lamps.map((one, i) => ({
        ...one,
        xMm: one.xMm + byMm[0],
        yMm: one.yMm + byMm[1],
        depthMm: depths[i],
        strength: (7 / depths[i]) ** 2,
      })),
    };
    const { evenness } = forecastMove(map, fit, together([0, 1], byMm), measured);
    const truth = mapOf(moved);
    expect(Math.abs(evenness.value! - scoreOfLight(truth, truth.light))).toBeLessThan(evenness.plusMinus!);
    expect(evenness.plusMinus!).toBeLessThan(8);
    expect(() => bestPlace(map, fit, [0, 1], { ...limits, x: [10, 20] })).toThrow('do not hold all lamps');
  });
});
