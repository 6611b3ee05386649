import { describe, expect, it } from 'vitest';
import { AppError } from '../../../core/base/errors';
import { bendOf, bentLight, halvedMap, mapFromText, scoreOfLight } from '../../../core/advice/measured-map';
import { drawnMap, spots } from '../../support/drawn-maps';

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

describe('halvedMap', () => {
  it('[AV1] scores as the finer map does', () => {
    const map = drawnMap(30, 12, spots({ xMm: 12, yMm: 5, peak: 2, sigmaMm: 4 }));
    const half = halvedMap(map);
    // cells of half a mm under the finest blur of 0.75 mm, and a rim of whole cells
    expect(scoreOfLight(half, half.light)).toBeWithin(scoreOfLight(map, map.light), 1);
  });
});

describe('bendOf', () => {
  it('[AV2] moves the score by its standard uncertainty', () => {
    const map = drawnMap(30, 12, spots({ xMm: 12, yMm: 5, peak: 2, sigmaMm: 4 }));
    const bend = bendOf(map, 6);
    const moved = scoreOfLight(map, map.light) - scoreOfLight(map, bentLight(map.light, 1 + bend));
    // half of the plus-minus of 6; the score is not quite straight over the bend
    expect(moved).toBeWithin(3, 0.3);
    expect(bendOf(map, 0)).toBe(0);
    expect(bendOf(drawnMap(30, 12, () => 1), 6)).toBe(0.2); // prettier-ignore
  });
});
