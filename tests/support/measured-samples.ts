import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import type { Figure } from '../../core/contract/figure';
import type { MeasuredWindow, MeasureRequest } from '../../core/contract/measure';
import type { Reading } from '../../core/contract/readings';
import { readSeries, requestOfSeries } from '../../core/contract/series';
import { measurePhotos } from '../../core/engine';
import { createDecoder, type DecodeAsked, type PhotoDecoder } from '../../core/node/decode-process';
import type { PhotoTruth, WindowTruth } from '../../samples/render/truth-file';

const folder = path.resolve('samples');

/** A reading beside what the render script says is true. */
export interface MeasuredSample {
  readonly file: string;
  readonly response: 'linear' | 'stated' | 'unknown';
  readonly reading: Reading;
  readonly truth: WindowTruth;
  readonly photo: PhotoTruth['photo'];
}

/** One figure of one sample: what was read, its plus-minus, and the truth. */
export interface Comparison {
  readonly name: string;
  readonly sample: string;
  readonly value: number;
  readonly plusMinus: number;
  readonly truth: number;
}

/** One for all that a test worker measures, as starting a child takes longer than most photos; children end with the worker. */
let decoder: PhotoDecoder | null = null;

/** Measures photos with their shipped decoding child; every entry must be a reading. */
export async function measureAll(request: MeasureRequest): Promise<Reading[]> {
  return (await measureWindows(request)).map(({ reading }) => reading);
}

/** The same, with what the engine tells beside each reading. */
export async function measureWindows(request: MeasureRequest): Promise<MeasuredWindow[]> {
  const shared = (decoder ??= createDecoder({ processes: 1 }));
  const decodePhoto = (file: string, asked: DecodeAsked) => shared.decode(file, asked);
  const { windows } = await measurePhotos(request, { decodePhoto, nowMs: () => performance.now() });
  return windows.map((window) => {
    if ('failed' in window) throw new Error(`${window.failed.file}: ${window.failed.error.message}`);
    return window;
  });
}

function responseOf(request: MeasureRequest, file: string): MeasuredSample['response'] {
  const photo = request.jobs.find((job) => job.photo.file === file)?.photo;
  if (!photo?.encodingStated) return 'unknown';
  return photo.encoding === 'linear' ? 'linear' : 'stated';
}

/** Every sample photo of every series file, measured with the corners that the series file gives. */
export async function measureSamples(): Promise<MeasuredSample[]> {
  const measured: MeasuredSample[] = [];
  for (const name of readdirSync(folder).filter((file) => file.endsWith('.series.json'))) {
    const series = readSeries(readFileSync(path.join(folder, name), 'utf8'), name);
    const request = requestOfSeries(series, (photo) => path.join(folder, photo));
    for (const reading of await measureAll(request)) {
      const { file } = reading.photos[0];
      if (measured.some((one) => one.file === file && one.reading.window === reading.window)) continue;
      const { windows, photo } = JSON.parse(
        readFileSync(path.join(folder, `${file}.truth.json`), 'utf8'),
      ) as PhotoTruth;
      const truth = windows.find((window) => window.name === reading.window);
      if (!truth) throw new Error(`${file} has no truth for the window ${reading.window}`);
      measured.push({ file, response: responseOf(request, file), reading, truth, photo });
    }
  }
  return measured;
}

function compared(sample: string, name: string, { value, plusMinus }: Figure, truth: number | null): Comparison[] {
  if (value === null || plusMinus === null || truth === null) return [];
  return [{ name, sample, value, plusMinus, truth }];
}

/** Every figure that a sample's reading gives and its truth holds. */
export function comparisonsOf(
  { file, reading, truth }: MeasuredSample,
  figures: WindowTruth['figures'] = truth.figures,
): Comparison[] {
  const { evenness, colour, redPrint } = reading;
  const sample = `${file} ${reading.window}`;
  const pairs: [string, Figure, number | null][] = [
    ['score', evenness.score, figures.score],
    ['minOverMax', evenness.minOverMax, figures.minOverMax],
    ['p5OverP95', evenness.p5OverP95, figures.p5OverP95],
    ['coefficientOfVariation', evenness.coefficientOfVariation, figures.coefficientOfVariation],
    ['ninePoint', evenness.ninePoint.minOverMax, figures.ninePoint.minOverMax],
    ['fivePoint', evenness.fivePoint.minOverMax, figures.fivePoint?.minOverMax ?? null],
    ['thirteenPoint', evenness.thirteenPoint.minOverMax, figures.thirteenPoint?.minOverMax ?? null],
    ['steepestPercentPerMm', evenness.steepestPercentPerMm, figures.steepestPercentPerMm],
    ['leftOverRight', evenness.leftOverRight, figures.leftOverRight],
    ['topOverBottom', evenness.topOverBottom, figures.topOverBottom],
    ['x', colour.x, figures.x],
    ['y', colour.y, figures.y],
    ['uPrime', colour.uPrime, figures.uPrime],
    ['vPrime', colour.vPrime, figures.vPrime],
    ['cctK', colour.cctK, figures.cctK],
    ['duv', colour.duv, figures.duv],
    ['spreadUv', colour.spreadUv, figures.spreadUv],
    ['gradientUvPer10Mm', colour.gradientUvPer10Mm, figures.gradientUvPer10Mm],
    ['redness', redPrint.redness, truth.redPrint?.redness ?? null],
    ['luminanceContrast', redPrint.luminanceContrast, truth.redPrint?.luminanceContrast ?? null],
  ];
  return pairs.flatMap(([name, figure, value]) => compared(sample, name, figure, value));
}

/** Share of comparisons whose truth lies inside the plus-minus, 0..1. */
export function coverageOf(comparisons: readonly Comparison[]): number {
  const held = comparisons.filter(({ value, plusMinus, truth }) => Math.abs(value - truth) <= plusMinus);
  return held.length / comparisons.length;
}

const medianOf = (values: number[]): number => values.sort((a, b) => a - b)[Math.floor(values.length / 2)];

/** Median plus-minus over median error. */
export function widthOf(comparisons: readonly Comparison[]): number {
  const errors = comparisons.map(({ value, truth }) => Math.abs(value - truth));
  return medianOf(comparisons.map(({ plusMinus }) => plusMinus)) / medianOf(errors);
}
