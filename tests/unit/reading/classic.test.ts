import { describe, expect, it } from 'vitest';
import { classicFigures } from '../../../core/reading/classic';
import { drawGlowMap, rampLight, spotLight } from './draw-glow';

const grey = (light: (x: number, y: number) => number) => (x: number, y: number) =>
  [light(x, y), light(x, y), light(x, y)] as const;

describe('classicFigures', () => {
  it('[EV4] an even window: ratios 1, no spread, no slope', () => {
    const figures = classicFigures(
      drawGlowMap(
        30,
        12,
        grey(() => 0.37),
      ),
    )!;
    expect(figures.minOverMax).toBeWithin(1, 1e-6); // float cells
    expect(figures.p5OverP95).toBeWithin(1, 1e-6);
    expect(figures.coefficientOfVariation).toBeWithin(0, 1e-6);
    expect(figures.steepestPercentPerMm).toBeWithin(0, 1e-3);
    expect([figures.leftOverRight, figures.topOverBottom]).toEqual([expect.closeTo(1, 6), expect.closeTo(1, 6)]);
  });

  it('[EV4] a ramp in ln: its slope, ends, percentiles and halves are known', () => {
    const widthMm = 50;
    const figures = classicFigures(drawGlowMap(widthMm, 14, grey(rampLight(2.4, widthMm))))!;
    const slope = Math.log(2.4) / widthMm;
    expect(figures.steepestPercentPerMm).toBeWithin(100 * slope, 0.01 * 100 * slope); // 1 %: mirrored edges lie 4 sigma away
    expect(figures.minOverMax).toBeWithin(Math.exp(-slope * 47.75), 2e-3); // first to last glow cell, 192 cells
    expect(figures.p5OverP95).toBeWithin(Math.exp(-slope * (182 - 9) * 0.25), 1e-3); // the 9th and 182nd of 192 columns
    // Halves are 24 mm long and 24 mm apart.
    expect(figures.leftOverRight).toBeWithin(Math.exp(-slope * 24), 1e-3);
    expect(figures.topOverBottom).toBeWithin(1, 1e-5);
    const mean = (1 - Math.exp(-slope * 48)) / (slope * 48);
    const square = (1 - Math.exp(-2 * slope * 48)) / (2 * slope * 48);
    expect(figures.coefficientOfVariation).toBeWithin(Math.sqrt(square / mean ** 2 - 1), 1e-3);
  });

  it('[EV4] print does not leak in, whatever its darkness; brightness does not matter', () => {
    const isPrint = (x: number, y: number): boolean => Math.abs(y - 6) < 0.8 && x > 8 && x < 24;
    const light = spotLight(1.8, 4, 20, 6);
    const withPrint = (dark: number, scale: number) =>
      classicFigures(
        drawGlowMap(
          40,
          12,
          grey((x, y) => scale * (isPrint(x, y) ? dark : light(x, y))),
          isPrint,
        ),
      )!;
    expect(withPrint(0.01, 1)).toEqual(withPrint(NaN, 1));
    const dim = withPrint(0.3, 1 / 64);
    expect(dim.minOverMax).toBeWithin(withPrint(0.3, 1).minOverMax, 1e-6);
    expect(dim.steepestPercentPerMm).toBeWithin(withPrint(0.3, 1).steepestPercentPerMm, 1e-3);
  });

  it('[EV4] mirrored, left over right turns over; turned, it becomes top over bottom', () => {
    const light = (x: number, y: number): number => spotLight(2.2, 5, 9, 5)(x, y);
    const figures = classicFigures(drawGlowMap(40, 14, grey(light)))!;
    const mirrored = classicFigures(
      drawGlowMap(
        40,
        14,
        grey((x, y) => light(40 - x, y)),
      ),
    )!;
    const turned = classicFigures(
      drawGlowMap(
        14,
        40,
        grey((x, y) => light(y, x)),
      ),
    )!;
    expect(figures.leftOverRight).toBeGreaterThan(1.1);
    expect(figures.leftOverRight! * mirrored.leftOverRight!).toBeWithin(1, 1e-5);
    expect(turned.topOverBottom).toBeWithin(figures.leftOverRight!, 1e-5);
    expect(turned.leftOverRight).toBeWithin(figures.topOverBottom!, 1e-5);
  });

  it('[EV4] no glow: no figures; one half dark with print: no side ratio', () => {
    expect(
      classicFigures(
        drawGlowMap(
          30,
          12,
          grey(() => 1),
          () => true,
        ),
      ),
    ).toBeNull();
    const leftOnly = classicFigures(
      drawGlowMap(
        30,
        12,
        grey(() => 1),
        (x) => x > 14,
      ),
    )!;
    expect(leftOnly.leftOverRight).toBeNull();
    expect(leftOnly.topOverBottom).toBeWithin(1, 1e-6);
  });
});
