import { describe, expect, it } from 'vitest';
import { AppError } from '../../../core/base/errors';
import {
  bentLight,
  doubtOf,
  halvedMap,
  mapFromText,
  measuredMap,
  pointsOfDoubt,
  scoreOfLight,
} from '../../../core/advice/measured-map';
import { figure, missing } from '../../../core/contract/figure';
import { drawnLight, drawnMap, spots } from '../../support/drawn-maps';

const head = '# format=evendial-map version=1 px_per_mm=4 width_mm=1 height_mm=0.5 unit=relative exposure_normalised=1';

const codeOf = (text: string): string => {
  try {
    mapFromText(text, 'map.csv');
  } catch (error) {
    if (error instanceof AppError) return `${error.code} ${error.message}`;
    throw error;
  }
  return 'read';
};

describe('mapFromText', () => {
  it('[AV1] keeps measured cells, counts them alone, and fills the others from beside', () => {
    const map = mapFromText(`${head}\n1,2,,4\n1,2,3,\n`, 'map.csv');
    expect([...map.glow.values]).toEqual([1, 1, 0, 1, 1, 1, 1, 0]);
    expect([...map.light.values.filter((_, i) => map.glow.values[i])]).toEqual([1, 2, 4, 1, 2, 3]);
    expect(map.light.values[2]).toBeGreaterThan(1);
    expect(map.light.values[2]).toBeLessThan(4);
    expect([map.widthMm, map.heightMm, map.pxPerMm]).toEqual([1, 0.5, 4]);
  });

  it('[AV1] refuses a damaged map with its line', () => {
    expect(codeOf('1,2,3')).toMatch(/MAP_INVALID .*line 1/);
    expect(codeOf(`${head}\n1,2,3,4\n`)).toMatch(/MAP_INVALID .*1 rows, not 2/);
    expect(codeOf(`${head}\n1,2,3,4\n1,2,3\n`)).toMatch(/MAP_INVALID .*line 3 has 3 cells/);
    expect(codeOf(`${head}\n1,2,3,4\n1,2,x,4\n`)).toMatch(/MAP_INVALID .*line 3: "x"/);
    expect(codeOf(head.replace('width_mm=1', 'width_mm=1e9'))).toMatch(/MAP_INVALID .*too many/);
    expect(codeOf(head.replace('relative', 'uv1976'))).toMatch(/MAP_INVALID .*uv1976/);
    expect(codeOf(`${head}\n,,,\n,,,\n`)).toMatch(/^MAP_EMPTY/);
  });
});

describe('measuredMap', () => {
  it('[AV11] a spot whose top a mark hides keeps its top, and nothing goes far beyond what was seen', () => {
    const top = spots({ xMm: 12, yMm: 6, peak: 2.4, sigmaMm: 3 });
    const whole = drawnMap(24, 12, top);
    const marked = drawnLight(24, 12, 4, (x, y) => (Math.abs(x - 12) < 2.1 && Math.abs(y - 6) < 2.1 ? NaN : top(x, y)));
    const map = measuredMap(marked, 4, 24, 12);
    const at = 24 * 96 + 48;
    const seen = Math.max(...marked.values.filter((value) => value > 0));
    expect(seen).toBeLessThan(0.9 * whole.light.values[at]);
    expect(map.light.values[at] / whole.light.values[at]).toBeWithin(1, 0.05); // a plate is no Gauss curve
    expect(Math.max(...map.light.values)).toBeLessThanOrEqual(seen * Math.exp(0.2) + 1e-6);
  });
});

describe('halvedMap', () => {
  it('[AV1] scores as the finer map does', () => {
    const map = drawnMap(30, 12, spots({ xMm: 12, yMm: 5, peak: 2, sigmaMm: 4 }));
    const half = halvedMap(map);
    // cells of half a mm under the finest blur of 0.75 mm, and a rim of whole cells
    expect(scoreOfLight(half, half.light)).toBeWithin(scoreOfLight(map, map.light), 1);
  });
});

describe('doubtOf', () => {
  it('[AV2] takes as much for the tone curve as a doubt of UN2 explains, 2 points for the lens, the rest in points', () => {
    // by hand: an unknown curve leaves 0.035 x 60 x 40 / 25 + 0.3 = 3.66 points of a score of 60
    expect(doubtOf(figure(60, 2 * 3.66))).toEqual({ bend: 0.1, points: 0 });
    expect(doubtOf(figure(60, 2 * Math.hypot(3.66 / 4, 2)))).toEqual({ bend: 0.025, points: expect.closeTo(0, 4) });
    expect(doubtOf(figure(60, 2 * Math.hypot(3.66, 2, 3)))).toEqual({ bend: 0.1, points: expect.closeTo(3, 4) });
    expect(doubtOf(figure(60, 2 * 8)).bend).toBe(0.2);
    expect(doubtOf(figure(60, 1))).toEqual({ bend: 0, points: 0 });
    expect(doubtOf(missing('clipped'))).toEqual({ bend: 0.1, points: 0 });
  });
});

describe('pointsOfDoubt', () => {
  const map = drawnMap(30, 12, spots({ xMm: 12, yMm: 5, peak: 2, sigmaMm: 4 }));
  it('[AV2] is what a bent curve and a darkening lens do to the score', () => {
    const moved = scoreOfLight(map, map.light) - scoreOfLight(map, bentLight(map.light, 1.1));
    const points = pointsOfDoubt(map, map.light, { bend: 0.1, points: 0 });
    // a bend of a tenth either way moves a middle score by 3 to 5 points (our own experiments), nearly alike to both sides
    expect(points).toBeWithin(moved, 1);
    expect(points).toBeWithin(4, 1.5);
    // 2 % at the ends of such a window are seen, and are less than the 2 points of UN1
    const ofLens = pointsOfDoubt(map, map.light, { bend: 0, points: 0 });
    expect(ofLens).toBeWithin(1, 0.95);
    expect(pointsOfDoubt(map, map.light, { bend: 0, points: 3 })).toBeWithin(Math.hypot(3, ofLens), 1e-9);
  });
});
