import { describe, expect, it } from 'vitest';
import { meanOf, populationDeviationOf } from '../../../core/base/stats';
import { fivePoints, ninePoints, samplePoints, thirteenPoints } from '../../../core/reading/sampled-points';
import { workedExamples } from '../../support/worked-examples';
import { drawGlowMap } from './draw-glow';

const grey = (light: (x: number, y: number) => number) => (x: number, y: number) =>
  [light(x, y), light(x, y), light(x, y)] as const;
/** Linear, so that an aperture's mean is the light at its middle. */
const tilted = (x: number, y: number): number => 1 + 0.01 * x + 0.03 * y;

interface NineAnswer {
  ratio: number;
  nu: number;
  michelson: number;
  cv: number;
}

describe('samplePoints', () => {
  it.each([
    ['nine', ninePoints, 9],
    ['thirteen', thirteenPoints, 13],
    ['five', fivePoints, 5],
  ] as const)('[EV5] %s points read the light at their places, in their order', (_, points, count) => {
    const [widthMm, heightMm] = [90, 18];
    const { values, minOverMax } = samplePoints(drawGlowMap(widthMm, heightMm, grey(tilted)), points);
    const expected = points.map(([x, y]) => tilted(x * widthMm, y * heightMm));
    const brightest = Math.max(...expected);
    expect(values).toHaveLength(count);
    values.forEach((value, i) => expect(value).toBeWithin(expected[i] / brightest, 2e-3)); // cells in a circle are lop-sided by up to 0.05 mm
    expect(minOverMax).toBeWithin(Math.min(...expected) / brightest, 2e-3);
  });

  it('[EV5] the worked nine readings: darkest over brightest, and their spread (nine-point)', () => {
    const [{ input, expected }] = workedExamples<{ L: number[] }, NineAnswer>('nine-point');
    const map = drawGlowMap(
      90,
      18,
      grey((x, y) => input.L[3 * Math.floor(y / 6) + Math.floor(x / 30)]),
    );
    const { minOverMax, values } = samplePoints(map, ninePoints);
    expect(minOverMax).toBeWithin(expected.ratio, 1e-6); // float cells
    // Two other ways to write the same ratio, as display data sheets do.
    expect(1 - minOverMax!).toBeWithin(expected.nu, 1e-6);
    expect((1 - minOverMax!) / (1 + minOverMax!)).toBeWithin(expected.michelson, 5e-5 + 1e-6);
    expect(populationDeviationOf(values as number[]) / meanOf(values as number[])).toBeWithin(expected.cv, 5e-5 + 1e-6); // four decimals
  });

  it('[EV5] the orders: nine row by row, five from the centre, thirteen with the inner four last', () => {
    expect(ninePoints[1]).toEqual([1 / 2, 1 / 6]);
    expect(ninePoints[3]).toEqual([1 / 6, 1 / 2]);
    expect(fivePoints).toEqual([
      [0.5, 0.5],
      [0.1, 0.1],
      [0.9, 0.1],
      [0.1, 0.9],
      [0.9, 0.9],
    ]);
    expect(thirteenPoints.slice(9)).toEqual([
      [0.3, 0.3],
      [0.7, 0.3],
      [0.3, 0.7],
      [0.7, 0.7],
    ]);
  });

  it('[EV5] a point on print moves to the nearest glow; print itself never counts', () => {
    // A bar 2.4 mm wide over the middle: the aperture of 1.5 mm sees glow again 1 mm to the left.
    const isPrint = (x: number): boolean => Math.abs(x - 44.6) < 1.2;
    const map = drawGlowMap(
      90,
      18,
      grey((x, y) => (isPrint(x) ? 0.001 : tilted(x, y))),
      isPrint,
    );
    const { values } = samplePoints(map, [[0.5, 0.5]]);
    const centre = samplePoints(map, [
      [0.5, 0.5],
      [0.9, 0.5],
    ]).values[0]!;
    expect(values).toEqual([1]);
    const light = centre * tilted(81, 9);
    expect(light).toBeGreaterThan(tilted(45, 9)); // the nearer glow lies to the right
    expect(light).toBeLessThan(tilted(47.2, 9));
  });

  it('[EV5] with no glow within 2 mm a point is null, and a third of them missing hides the ratio', () => {
    const isPrint = (x: number): boolean => x < 27;
    const { values, minOverMax } = samplePoints(drawGlowMap(90, 18, grey(tilted), isPrint), ninePoints);
    expect([values[0], values[3], values[6]]).toEqual([null, null, null]);
    expect(minOverMax).not.toBeNull(); // 6 of 9
    const fewer = samplePoints(
      drawGlowMap(90, 18, grey(tilted), (x, y) => isPrint(x) || (x > 60 && y < 6)),
      ninePoints,
    );
    expect(fewer.values.filter((value) => value === null)).toHaveLength(4);
    expect(fewer.minOverMax).toBeNull();
  });

  it('[EV5] a point never moves over 20 % of the side', () => {
    // 8 mm high: up to 1.6 mm; the strip of glow begins 2.2 mm below the point.
    const map = drawGlowMap(60, 8, grey(tilted), (_, y) => y < 6);
    expect(samplePoints(map, [[0.5, 0.5]]).values).toEqual([null]);
    expect(
      samplePoints(
        drawGlowMap(60, 8, grey(tilted), (_, y) => y < 5.4),
        [[0.5, 0.5]],
      ).values,
    ).toEqual([1]);
  });

  it('[EV5] no light at all: all null', () => {
    expect(
      samplePoints(
        drawGlowMap(
          30,
          12,
          grey(() => 0),
        ),
        fivePoints,
      ),
    ).toEqual({
      minOverMax: null,
      values: [null, null, null, null, null],
    });
  });
});
