import { beforeAll, describe, expect, it } from 'vitest';
import { medianOf } from '../../core/base/stats';
import type { SpotEntry } from '../../core/contract/readings';
import type { WindowTruth } from '../../samples/render/truth-file';
import {
  comparisonsOf,
  coverageOf,
  measureSamples,
  widthOf,
  type Comparison,
  type MeasuredSample,
} from '../support/measured-samples';

let samples: MeasuredSample[] = [];
/** Every figure of the glow against its truth; the score against that of the whole light, print or not. */
let comparisons: Comparison[] = [];

beforeAll(async () => {
  samples = await measureSamples();
  comparisons = samples.flatMap((sample) => [
    ...comparisonsOf(sample).filter(({ name }) => name !== 'score'),
    ...comparisonsOf(sample, sample.truth.unprintedFigures).filter(({ name }) => name === 'score'),
  ]);
}, 400_000);

const largestError = (name: string, of: readonly MeasuredSample[]): number => {
  const errors = of.flatMap((sample) => comparisonsOf(sample)).filter((one) => one.name === name);
  expect(errors.length).toBeGreaterThan(0);
  return Math.max(...errors.map(({ value, truth }) => Math.abs(value - truth)));
};

/** A hot spot that was read beside the true one nearest to it. */
interface SpotPair {
  readonly name: string;
  readonly response: MeasuredSample['response'];
  readonly read: SpotEntry;
  readonly truth: WindowTruth['spots'][number];
}

function spotPairs(): SpotPair[] {
  return samples.flatMap(({ file, response, reading, truth: { spots } }) =>
    reading.spots
      .filter(({ kind }) => kind === 'hot')
      .map((read) => {
        const away = ({ xMm, yMm }: { xMm: number; yMm: number }): number => Math.hypot(xMm - read.xMm, yMm - read.yMm);
        const [truth] = [...spots].sort((a, b) => away(a) - away(b));
        return { name: `${file} at ${read.xMm.toFixed(0)} mm`, response, read, truth };
      }),
  );
}

describe('samples against truth', () => {
  it('[SM12] every sample photo of the series files is measured, windows of one photo apart', () => {
    expect(samples.length).toBeGreaterThanOrEqual(23);
    expect(samples.filter(({ response }) => response === 'linear').length).toBeGreaterThanOrEqual(4);
  });

  it('[SM12] a linear camera: shape figures within the promised distance of the truth', () => {
    const linear = samples.filter(({ response }) => response === 'linear');
    expect(largestError('minOverMax', linear)).toBeLessThan(0.02);
    expect(largestError('p5OverP95', linear)).toBeLessThan(0.02);
    expect(largestError('coefficientOfVariation', linear)).toBeLessThan(0.015);
    expect(largestError('ninePoint', linear)).toBeLessThan(0.03);
    expect(largestError('score', linear)).toBeLessThan(1);
    const inGamut = linear.filter(({ truth }) => truth.figures.insideGamut);
    expect(largestError('uPrime', inGamut)).toBeLessThan(0.005);
    expect(largestError('vPrime', inGamut)).toBeLessThan(0.005);
  });

  it('[SM12] light outside the gamut is flagged, light inside is not', () => {
    const flagged = samples.filter(({ reading }) => reading.colour.outOfGamut).map(({ file }) => file);
    expect(flagged.sort()).toEqual(['photos/m4-amber.jpg', 'photos/t60-amber-bare.jpg', 'photos/t60-red-green.jpg']);
  });

  it('[SM12] the clipped and the dark sample are refused, every other one is scored', () => {
    const refused = samples.filter(({ reading }) => reading.evenness.score.value === null);
    expect(refused.map(({ file }) => file).sort()).toEqual(['photos/t60-clipped.jpg', 'photos/t60-dark.jpg']);
  });

  it('[UN7] the truth lies inside the plus-minus in nine of ten figures, and of every kind in eight of ten', () => {
    expect(coverageOf(comparisons)).toBeGreaterThanOrEqual(0.9);
    for (const name of new Set(comparisons.map((one) => one.name))) {
      const ofKind = comparisons.filter((one) => one.name === name);
      expect.soft(coverageOf(ofKind), name).toBeGreaterThanOrEqual(0.8);
    }
  });

  it('[EV8] each of the nine points is within its plus-minus in nine of ten, and that is sharp', () => {
    const points = samples.flatMap((sample): Comparison[] => {
      const { values, plusMinus } = sample.reading.evenness.ninePoint;
      const truths = sample.truth.figures.ninePoint.values;
      return (values ?? []).flatMap((value, i) => {
        const [doubt, truth] = [plusMinus?.[i] ?? 0, truths[i]];
        if (value === null || truth === null || doubt === 0) return [];
        return [{ name: `point ${i}`, sample: sample.file, value, plusMinus: doubt, truth }];
      });
    });
    expect(points.length).toBeGreaterThan(150);
    expect(coverageOf(points)).toBeGreaterThanOrEqual(0.9);
    expect(widthOf(points)).toBeLessThanOrEqual(8);
  });

  it('[UN7] the plus-minus is sharp: its median at most four times the median error', () => {
    const names = [...new Set(comparisons.map((one) => one.name))];
    const widths = names.map((name) => ({ name, width: widthOf(comparisons.filter((one) => one.name === name)) }));
    const middle = widths.map(({ width }) => width).sort((a, b) => a - b)[Math.floor(widths.length / 2)];
    expect(middle).toBeLessThanOrEqual(4);
    // One kind alone may miss: the doubts about lens corners and about print that leans a half are hardly tried by these photos,
    // whose cameras have no dark corners and whose lamps stand symmetrically.
    for (const { name, width } of widths) expect.soft(width, name).toBeLessThanOrEqual(8);
  });

  it('[SP6] hot spots: every true one over 1.1 is found, none is made up, and its place is within what is told of it', () => {
    for (const { file, reading, truth } of samples.filter(({ reading }) => reading.spotsReason === undefined)) {
      const hot = reading.spots.filter(({ kind }) => kind === 'hot');
      expect.soft(hot.length, file).toBe(truth.spots.filter(({ ratioToGlow }) => ratioToGlow > 1.1).length);
    }
    for (const { name, read, truth } of spotPairs()) {
      expect.soft(read.xMm, `x of ${name}`).toBeWithin(truth.xMm, read.plusMinusMm);
      expect.soft(read.yMm, `y of ${name}`).toBeWithin(truth.yMm, read.plusMinusMm);
    }
    // All but those with a flat top under a shade or behind figures: 0.6 mm, and what laying the photo on the series leaves.
    const sharp = spotPairs().filter(({ read }) => read.plusMinusMm < 0.8);
    expect(sharp.length).toBeGreaterThan(0.85 * spotPairs().length);
    for (const { name, read, truth } of sharp) {
      expect.soft(Math.max(Math.abs(read.xMm - truth.xMm), Math.abs(read.yMm - truth.yMm)), name).toBeLessThan(0.6);
    }
  });

  it('[SP6] ratio of spots of 5 mm or more: within 8 % of the truth and within its plus-minus', () => {
    const whole = spotPairs().filter(({ read }) => !read.atLeast);
    const errors = whole.map(({ read, truth }) => Math.abs(read.ratioToGlow - truth.ratioToGlow));
    const plusMinus = whole.map(({ read }) => read.ratioPlusMinus!);
    for (const [i, { name, truth }] of whole.entries()) {
      expect.soft(errors[i], name).toBeLessThanOrEqual(plusMinus[i]);
      expect.soft(errors[i] / truth.ratioToGlow, name).toBeLessThan(0.08);
    }
    // Sharp, as for every figure: u (k = 1) is at most four times the median error, pooled as the samples mix their cameras.
    expect(medianOf(plusMinus) / medianOf(errors)).toBeLessThanOrEqual(8);
    const known = whole.filter(({ response }) => response !== 'unknown');
    expect(Math.max(...known.map(({ read }) => read.ratioPlusMinus! / read.ratioToGlow))).toBeLessThan(0.08);
  });

  it('[SP6] smaller spots have a bound that is not above the truth', () => {
    const small = spotPairs().filter(({ read }) => read.atLeast);
    expect(small.length).toBeGreaterThan(0);
    for (const { name, read, truth } of small) {
      expect.soft(read.ratioToGlow, name).toBeLessThanOrEqual(truth.ratioToGlow);
      expect.soft(read.ratioToGlow, name).toBeGreaterThan(0.85 * truth.ratioToGlow);
    }
  });

  it('[UN7] a plain JPEG claims less than the same light with a known response', () => {
    const plusMinus = (file: string): number =>
      samples.find((one) => one.file === `photos/${file}`)?.reading.evenness.score.plusMinus ?? NaN;
    expect(plusMinus('t60-filament.jpg')).toBeGreaterThan(2 * plusMinus('t60-filament-linear.png'));
  });
});
