import { readFileSync } from 'node:fs';
import path from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import type { ComparisonDocument, Pair } from '../../core/contract/comparison';
import type { Figure } from '../../core/contract/figure';
import type { Reading } from '../../core/contract/readings';
import { runCompare } from '../../core/node/cli/compare';
import { medianOf } from '../../core/base/stats';
import { runCommand } from '../support/run-command';

const samples = path.resolve('samples');

interface Truth {
  readonly redPrint: { readonly redness: number };
  readonly figures: { score: number; uPrime: number; vPrime: number; glowMeanRelative: number };
}

/** From the script that drew the photo, never from the engine. */
function truthOf({ photos: [photo] }: Reading): Truth {
  const { windows } = JSON.parse(readFileSync(path.join(samples, `${photo.file}.truth.json`), 'utf8')) as {
    windows: Truth[];
  };
  return windows[0];
}

let reference: Reading;
let trials: Reading[] = [];
let pairs: readonly Pair[] = [];

beforeAll(async () => {
  const { code, out } = await runCommand(runCompare, ['--series', 't60.series.json', '--json'], samples);
  expect(code).toBe(0);
  const document = JSON.parse(out) as Pick<ComparisonDocument, 'pairs'> & {
    readings: Reading[];
    reference: Reading[];
  };
  [reference] = document.reference;
  trials = document.readings;
  ({ pairs } = document);
}, 200_000);

const byLight = (words: string): Reading => trials.find(({ photos }) => photos[0].file.includes(words))!;
const indexOf = (words: string): number => byLight(words).redPrint.index.value!;

/** Each figure that is relative to the filament, and its truth. */
function compared(): { figure: Figure; truth: number; name: string }[] {
  const base = truthOf(reference);
  return trials.flatMap((trial) => {
    const { redPrint, figures } = truthOf(trial);
    const { uPrime, vPrime, glowMeanRelative } = figures;
    const distance = Math.hypot(uPrime - base.figures.uPrime, vPrime - base.figures.vPrime);
    return [
      { name: 'index', figure: trial.redPrint.index, truth: (100 * redPrint.redness) / base.redPrint.redness },
      { name: 'uv', figure: trial.colour.toReferenceUv, truth: distance },
      {
        name: 'light',
        figure: trial.luminance.ofReference,
        truth: glowMeanRelative / base.figures.glowMeanRelative,
      },
      { name: 'evenness', figure: trial.evenness.toReference, truth: figures.score - base.figures.score },
    ];
  });
}

describe('lamps beside the filament, an everyday camera', () => {
  it('[PR4] the same LEDs behind paper, behind tape or farther back have no colours that can be told apart', () => {
    // Its tone curve shows a dim glow yellower than a bright one; the LEDs' own colour is one.
    const isWarm = (name: string): boolean => /warm.white/i.test(name);
    const alike = pairs.filter(({ a, b }) => isWarm(a) && isWarm(b));
    expect(alike).toHaveLength(6);
    expect(alike.filter(({ colour }) => colour.toldApart)).toEqual([]);
    // What is another colour still is one: cool white beside each of the four.
    const other = pairs.filter(({ a, b }) => [a, b].some(isWarm) && /cool/i.test(`${a} ${b}`));
    expect(other.map(({ colour }) => colour.toldApart)).toEqual([true, true, true, true]);
  });

  it('[UN10] nine of ten plus-minus hold the truth, and the median one is at most four times the median error', () => {
    const all = compared().filter(({ figure }) => figure.value !== null);
    expect(all.length).toBeGreaterThanOrEqual(28);
    const errors = all.map(({ figure, truth }) => Math.abs(figure.value! - truth));
    const held = all.filter(({ figure }, i) => errors[i] <= figure.plusMinus!);
    expect(held.length / all.length).toBeGreaterThanOrEqual(0.9);
    for (const kind of ['index', 'uv', 'light', 'evenness']) {
      const own = all.flatMap(({ name, figure }, i) => (name === kind ? [[figure.plusMinus!, errors[i]]] : []));
      const median = (at: number): number => medianOf(own.map((pair) => pair[at]));
      expect(median(0) / 2, kind).toBeLessThanOrEqual(4 * median(1)); // u, k = 1
    }
  });

  it('[RP12] lamps come in their true order: narrow amber has lost the red, red and green have more of it', () => {
    expect(indexOf('amber-bare')).toBeLessThan(20);
    expect(byLight('amber-bare').redPrint.words).toMatch(/^red lost/);
    expect(indexOf('red-green')).toBeGreaterThan(100);
    expect(indexOf('warm-white-bare')).toBeGreaterThan(indexOf('cool-white'));
    expect(indexOf('cool-white')).toBeGreaterThan(indexOf('amber-bare') + 20);
    expect(trials.every(({ redPrint }) => redPrint.maskFrom === 'reference')).toBe(true);
  });

  it("[RF1] the reference's own figures are 100 % and 0", () => {
    expect(reference.redPrint.index).toEqual({ value: 100, plusMinus: 0 });
    expect(reference.colour.toReferenceUv).toEqual({ value: 0, plusMinus: 0 });
  });
});
