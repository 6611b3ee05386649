import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createMask, createPlane, type Mask, type Plane } from '../../../core/base/plane';
import { scoreEvenness, scoreOfUnevenness } from '../../../core/reading/evenness';
import { workedExamples } from '../../support/worked-examples';
import { drawLight, drawMask, rampLight, spotLight } from './draw-glow';

const usual = { pxPerMm: 4, borderMm: 1, viewingDistanceMm: 500 };
const wholly = (plane: Plane): Mask => createMask(plane.width, plane.height, 1);
const scoreOf = (plane: Plane, options = usual): number => scoreEvenness(plane, wholly(plane), options).score;
const spotScore = (ratio: number): number => scoreOf(drawLight(60, 25, 4, spotLight(ratio, 5, 30, 12.5)));
const rampScore = (ratio: number): number => scoreOf(drawLight(60, 25, 4, rampLight(ratio, 60)));

interface SpotInput {
  readonly W: number;
  readonly H: number;
  readonly ratio: number;
  readonly s: number;
  readonly x0?: number;
  readonly y0?: number;
}
interface Expected {
  readonly E: number;
  readonly U: number;
}

describe('scoreEvenness: worked examples', () => {
  it.each(workedExamples<SpotInput, Expected>('E-hot').map((e) => [e.id, e] as const))(
    '[EV1] spots score as worked out: %s',
    (_, { input, expected }) => {
      const { W, H, ratio, s, x0 = W / 2, y0 = H / 2 } = input;
      const plane = drawLight(W, H, 4, spotLight(ratio, s, x0, y0));
      const { score, visibleUnevenness } = scoreEvenness(plane, wholly(plane), usual);
      expect(score).toBeWithin(expected.E, 0.05 + 1e-6); // the answer has one decimal
      expect(visibleUnevenness).toBeWithin(expected.U, 0.00005 + 1e-6); // four decimals
    },
  );

  it.each(workedExamples<{ W: number; H: number; ratio: number }, Expected>('E-ramp').map((e) => [e.id, e] as const))(
    '[EV1] ramps score as worked out: %s',
    (_, { input, expected }) => {
      const plane = drawLight(input.W, input.H, 4, rampLight(input.ratio, input.W));
      const { score, visibleUnevenness } = scoreEvenness(plane, wholly(plane), usual);
      expect(score).toBeWithin(expected.E, 0.05 + 1e-6);
      expect(visibleUnevenness).toBeWithin(expected.U, 0.00005 + 1e-6);
    },
  );

  it('[EV3] masked print does not count (E-mask)', () => {
    const [{ expected }] = workedExamples<unknown, { E_masked: number; E_no_print: number }>('E-mask');
    const spot = spotLight(2, 5, 20, 12.5);
    const isPrint = (x: number, y: number): boolean =>
      (Math.abs(y - 13.5) < 0.5 && x > 42 && x < 56) || Math.abs(x - 20) < 0.4;
    const clean = drawLight(60, 25, 4, spot);
    const printed = drawLight(60, 25, 4, (x, y) => spot(x, y) * (isPrint(x, y) ? 0.03 : 1));
    const glow = drawMask(printed, 4, (x, y) => !isPrint(x, y));
    expect(scoreOf(clean)).toBeWithin(expected.E_no_print, 0.05 + 1e-6);
    expect(scoreEvenness(printed, glow, usual).score).toBeWithin(expected.E_masked, 0.06); // one decimal, and float cells
    expect(scoreOf(printed)).toBeLessThan(40);
  });
});

describe('scoreEvenness: anchors of the scale', () => {
  it.each([
    [97, 1.1],
    [95, 1.12],
    [90, 1.18],
    [80, 1.31],
    [65, 1.57],
    [50, 2.02],
    [35, 3.08],
    [20, 6.53],
  ])('[EV1] %d stands for a spot of %d times the light', (score, ratio) => {
    expect(spotScore(ratio)).toBeWithin(score, 0.75); // the anchors were interpolated between ratios 0.1 apart
  });

  it.each([
    [95, 1.56],
    [80, 1.82],
    [50, 2.77],
  ])('[EV1] %d stands for a ramp of %d to 1', (score, ratio) => {
    expect(rampScore(ratio)).toBeWithin(score, 0.5);
  });

  it('[EV1] an even window scores 100 at any brightness, 1x9 mm too', () => {
    for (const light of [3e-6, 0.7, 41]) {
      const plane = drawLight(9, 4, 4, () => light);
      expect(scoreOf(plane, { ...usual, borderMm: 0 })).toBeWithin(100, 1e-9);
    }
  });

  it('[EV1] the score falls strictly with the spot, from 1 to 8 times the light', () => {
    let before = 100.0001;
    for (let ratio = 1.06; ratio <= 8; ratio += 0.33) {
      const score = spotScore(ratio);
      expect(score).toBeLessThan(before);
      before = score;
    }
  });

  it('[EV1] the score of a pooled residual halves at 0.19 and never rises', () => {
    expect(scoreOfUnevenness(0)).toBe(100);
    expect(scoreOfUnevenness(0.19)).toBeWithin(50, 1e-9);
    expect(scoreOfUnevenness(0.3)).toBeLessThan(scoreOfUnevenness(0.29));
  });
});

describe('scoreEvenness: what must not matter', () => {
  it('[EV3] exposure: a thousandth of the light scores the same (E-exposure)', () => {
    const spot = spotLight(2, 5, 30, 12.5);
    const bright = drawLight(60, 25, 4, spot);
    const dim = drawLight(60, 25, 4, (x, y) => 0.001 * spot(x, y));
    expect(scoreOf(dim)).toBeWithin(scoreOf(bright), 1e-6);
  });

  it.each([2, 3, 6, 8])('[EV3] the grid: %d cells a mm score like 4', (pxPerMm) => {
    const spot = spotLight(2.5, 1.8, 25, 9);
    const usualScore = scoreOf(drawLight(40, 18, 4, spot));
    expect(scoreOf(drawLight(40, 18, pxPerMm, spot), { ...usual, pxPerMm })).toBeWithin(usualScore, 0.05); // a spot 1.8 mm wide
  });

  it('[EV3] the window length: no jump where the ladder gains a level', () => {
    const scores: number[] = [];
    for (let lengthMm = 20; lengthMm <= 50; lengthMm += 0.5) {
      const spot = spotLight(2, 4, lengthMm / 2, 7);
      scores.push(scoreOf(drawLight(lengthMm, 14, 2, spot), { ...usual, pxPerMm: 2 }));
    }
    // At 2 cells a mm each step adds one column. Second differences: a jump would show as one of its own size.
    for (let i = 2; i < scores.length; i++) {
      expect(scores[i] - 2 * scores[i - 1] + scores[i - 2]).toBeWithin(0, 0.5);
    }
  });

  it('[EV3] mirrored either way, a map scores the same', () => {
    const light = (x: number, y: number): number => spotLight(1.9, 3, 11, 4)(x, y) * rampLight(1.3, 40)(x);
    const score = scoreOf(drawLight(40, 15, 4, light));
    expect(scoreOf(drawLight(40, 15, 4, (x, y) => light(40 - x, y)))).toBeWithin(score, 1e-5); // order of float sums
    expect(scoreOf(drawLight(40, 15, 4, (x, y) => light(x, 15 - y)))).toBeWithin(score, 1e-5);
    expect(scoreOf(drawLight(15, 40, 4, (x, y) => light(y, x)))).toBeWithin(score, 1e-5);
  });

  it('[EV3] light outside the glow, even none, NaN or negative', () => {
    const light = spotLight(1.7, 3, 12, 7);
    const glowAt = (x: number, y: number): boolean => (x - 20) ** 2 + (y - 7) ** 2 > 9;
    const plane = drawLight(40, 15, 4, light);
    const glow = drawMask(plane, 4, glowAt);
    const expected = scoreEvenness(plane, glow, usual).score;
    for (const filler of [NaN, -0.4, 0, 900]) {
      const filled = drawLight(40, 15, 4, (x, y) => (glowAt(x, y) ? light(x, y) : filler));
      expect(scoreEvenness(filled, glow, usual).score).toBe(expected);
    }
  });

  it('[EV1] random gentle fields: score in 0..100, residual on the glow only, input unchanged', () => {
    fc.assert(
      fc.property(
        fc.array(fc.float({ min: Math.fround(0.1), max: 9, noNaN: true }), { minLength: 12, maxLength: 12 }),
        (knots) => {
          const plane = drawLight(12, 9, 2, (x, y) => knots[Math.floor(x / 3) + 4 * Math.floor(y / 3)]);
          const glow = drawMask(plane, 2, (x, y) => x + y > 4);
          const before = [plane.values.slice(), glow.values.slice()];
          const { score, residual } = scoreEvenness(plane, glow, { ...usual, pxPerMm: 2 });
          expect(score > 0 && score <= 100).toBe(true);
          expect([plane.values, glow.values]).toEqual(before);
          residual.values.forEach((value, i) => {
            const [row, column] = [Math.floor(i / 24), i % 24];
            const counts = glow.values[i] === 1 && row >= 2 && row < 16 && column >= 2 && column < 22;
            expect(Number.isNaN(value)).toBe(!counts);
          });
        },
      ),
      { numRuns: 20, seed: 7 },
    );
  });

  it('[EV1] the residual is positive where it is too bright, and keeps its place', () => {
    const plane = drawLight(40, 15, 4, spotLight(2, 2, 11, 6));
    const { residual } = scoreEvenness(plane, wholly(plane), usual);
    const at = (x: number, y: number): number =>
      residual.values[Math.floor(y * 4) * residual.width + Math.floor(x * 4)];
    expect(at(11, 6)).toBeGreaterThan(0.3);
    expect(at(30, 9)).toBeLessThanOrEqual(0);
    expect(at(0.4, 6)).toBeNaN();
  });

  it('[EV1] no glow, or a border that takes all, stops loudly', () => {
    expect(() => scoreEvenness(createPlane(30, 20, 1), createMask(30, 20), usual)).toThrow('no glow');
    expect(() => scoreEvenness(createPlane(8, 20, 1), createMask(8, 20, 1), usual)).toThrow('border');
    expect(() => scoreEvenness(createPlane(20, 30, 1), createMask(30, 20, 1), usual)).toThrow('shapes differ');
  });
});
