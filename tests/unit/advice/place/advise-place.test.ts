import { describe, expect, it } from 'vitest';
import { fittedLamps, lampsOf, movesOf } from '../../../../core/advice/place/advise-place';
import { forecastMove } from '../../../../core/advice/place/forecast-move';
import { modelLight, type LampModel, type ModelLamp } from '../../../../core/advice/place/lamp-model';
import { halvedMap, scoreOfLight, type MeasuredMap } from '../../../../core/advice/measured-map';
import { figure, missing } from '../../../../core/contract/figure';
import { drawnMap } from '../../../support/drawn-maps';

const lamp = (more: Partial<ModelLamp>): ModelLamp => ({
  xMm: 15,
  yMm: 8,
  depthMm: 10,
  lobe: 1.5,
  slopes: [0, 0],
  strength: 1,
  ...more,
});
const fullMap = (model: LampModel): MeasuredMap => drawnMap(40, 16, (x, y) => modelLight(model, x, y));
const hot = (count: number) => Array.from({ length: count }, () => ({ kind: 'hot' as const }));
const codeOf = (map: MeasuredMap, score = figure(50, 4), spots = hot(1)): string => {
  const found = lampsOf({ score, map, spots });
  return 'refusal' in found ? found.refusal.code : 'found';
};
const one = fullMap({ lamps: [lamp({})], boxLight: 0.15 });

describe('lampsOf', () => {
  it('[PL3] refuses, each with a remedy, what no forecast can be made from', () => {
    expect(codeOf(one)).toBe('found');
    expect(codeOf(one, missing('clipped'))).toBe('PLACE_WITHOUT_SCORE');
    expect(codeOf(one, figure(97, 3))).toBe('NOTHING_TO_GAIN');
    expect(codeOf(one, figure(50, 4), hot(4))).toBe('LAMPS_TOO_MANY');
    // nearly even, and a window lit from its two edges by a guide of light: no lamp stands behind it
    const flat = drawnMap(40, 16, (x, y) => 1 + 0.01 * (((x * 7 + y * 13) % 5) / 5));
    expect(codeOf(flat, figure(90, 4), [])).toBe('LAMPS_NOT_SEEN');
    const edgeLit = drawnMap(40, 16, (x, y) => 0.3 + Math.exp(-x / 5) + Math.exp((x - 40) / 5) + 0.02 * y);
    const refused = lampsOf({ score: figure(45, 4), map: edgeLit, spots: [] });
    expect('refusal' in refused && refused.refusal.remedy).toMatch(/--single-lamp/);
  });

  it('[PL3] two lamps are two, numbered from the left', () => {
    const two = fullMap({ lamps: [lamp({ xMm: 31 }), lamp({ xMm: 9 })], boxLight: 0.1 });
    const found = lampsOf({ score: figure(45, 4), map: two, spots: hot(2) });
    if ('refusal' in found) throw new Error(found.refusal.message);
    const [left, right] = fittedLamps(found.fit);
    expect([left.number, right.number]).toEqual([1, 2]);
    expect(left.positionMm[0]).toBeWithin(9, 1); // half a mm, our own experiment, and the cells of half a mm
    expect(right.positionMm[0]).toBeWithin(31, 1);
  });
});

describe('movesOf', () => {
  it('[PL4] a turned lamp is forecast as it comes out, to either side and from where it was turned before', () => {
    for (const [before, by] of [
      [0, 20],
      [0, -25],
      [-15, 45],
    ]) {
      const slope = (deg: number): number => Math.tan((deg * Math.PI) / 180);
      const at = (deg: number): MeasuredMap => fullMap({ lamps: [lamp({ slopes: [slope(deg), 0] })], boxLight: 0.15 });
      const found = lampsOf({ score: figure(45, 2), map: at(before), spots: hot(1) });
      if ('refusal' in found) throw new Error(found.refusal.message);
      const { evenness } = forecastMove(
        found.map,
        found.fit,
        movesOf(found.fit, [0], [0, 0, 0], [by, 0]),
        figure(45, 2),
      );
      const turned = halvedMap(at(before + by));
      expect(Math.abs(evenness.value! - scoreOfLight(turned, turned.light))).toBeLessThan(evenness.plusMinus!);
      expect(evenness.plusMinus!).toBeLessThan(8);
      expect(Math.abs(evenness.value! - scoreOfLight(found.map, found.map.light))).toBeGreaterThan(1);
    }
  });
});
