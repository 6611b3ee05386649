import { beforeAll, describe, expect, it } from 'vitest';
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

  it('[UN7] the plus-minus is sharp: its median at most four times the median error', () => {
    const names = [...new Set(comparisons.map((one) => one.name))];
    const widths = names.map((name) => ({ name, width: widthOf(comparisons.filter((one) => one.name === name)) }));
    const middle = widths.map(({ width }) => width).sort((a, b) => a - b)[Math.floor(widths.length / 2)];
    expect(middle).toBeLessThanOrEqual(4);
    // One kind alone may miss: the doubts about lens corners and about print that leans a half are hardly tried by these photos,
    // whose cameras have no dark corners and whose lamps stand symmetrically.
    for (const { name, width } of widths) expect.soft(width, name).toBeLessThanOrEqual(8);
  });

  it('[UN7] a plain JPEG claims less than the same light with a known response', () => {
    const plusMinus = (file: string): number =>
      samples.find((one) => one.file === `photos/${file}`)?.reading.evenness.score.plusMinus ?? NaN;
    expect(plusMinus('t60-filament.jpg')).toBeGreaterThan(2 * plusMinus('t60-filament-linear.png'));
  });
});
