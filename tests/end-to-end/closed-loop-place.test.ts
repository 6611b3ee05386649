import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { halvedMap } from '../../core/advice/measured-map';
import { bestMoveBack } from '../../core/advice/next/fitted-lamps';
import { findLamps } from '../../core/advice/place/fit-lamps';
import { bestPlace, forecastMove, together, type LampMove } from '../../core/advice/place/forecast-move';
import { medianOf } from '../../core/base/stats';
import type { LitWindow } from '../../samples/render/index';
import type { Lamp } from '../../samples/render/light/lamp';
import { chance, photographed, shotOf, trueScore, windowOf } from '../support/advice/scenes';
import { isLongRun, patienceMs } from '../support/long-run';

/** Scenes of these seeds were never looked at while the placement was made. */
const firstSeed = 41_000;
const scenes = isLongRun ? 60 : 3;

const sizes = [
  { widthMm: 92, heightMm: 18 },
  { widthMm: 60, heightMm: 20 },
  { widthMm: 40, heightMm: 16 },
];

/** One lamp somewhere behind a window, or two in its halves; bare, in a box that throws some light back. */
function litByLamps(seed: number): LitWindow {
  const { between, is } = chance(seed);
  const size = sizes[seed % sizes.length];
  const lampIn = (from: number, to: number): Lamp => ({
    light: 'warm-white',
    xMm: between(from, to) * size.widthMm,
    yMm: between(0.1, 0.9) * size.heightMm,
    zMm: between(6, 18),
    lobe: between(0.8, 4),
    flux: between(10, 20),
    ...(is(0.4) ? { tiltDeg: [between(-25, 25), between(-15, 15)] as const } : {}),
  });
  const lamps = size.widthMm > 50 && is(0.5) ? [lampIn(0.12, 0.38), lampIn(0.62, 0.88)] : [lampIn(0.12, 0.88)];
  return windowOf(size, 'warm-white', lamps, { diffuseShare: between(0.4, 0.75) });
}

/** Moves the lamp of the scene that lies nearest to where the fit sees one. */
function withMove(window: LitWindow, atXMm: number, byMm: LampMove['byMm']): LitWindow {
  const away = ({ xMm }: Lamp): number => Math.abs(xMm - atXMm);
  const nearest = window.lamps.reduce((best, lamp) => (away(lamp) < away(best) ? lamp : best));
  const moved = { ...nearest, xMm: nearest.xMm + byMm[0], yMm: nearest.yMm + byMm[1], zMm: nearest.zMm + byMm[2] };
  return { ...window, lamps: window.lamps.map((lamp) => (lamp === nearest ? moved : lamp)) };
}

const movedBack = (window: LitWindow, byMm: number): LitWindow => ({
  ...window,
  lamps: window.lamps.map((lamp) => ({ ...lamp, zMm: lamp.zMm + byMm })),
});

/** All lamps moved back as `next` suggests it. */
interface Back {
  readonly byMm: number;
  readonly predicted: number;
  readonly plusMinus: number;
  readonly reached: number;
}

interface Outcome {
  readonly seed: number;
  readonly refusal: string | null;
  readonly before: number;
  readonly predicted: number;
  readonly plusMinus: number;
  readonly reached: number;
  readonly back: Back | null;
}

/** There is something to gain: from here on the reading says that it is even. */
const uneven = 90;
const outcomes: Outcome[] = [];

beforeAll(async () => {
  const windows = Array.from({ length: 2 * scenes }, (_, i) => [firstSeed + i, litByLamps(firstSeed + i)] as const)
    .filter(([, window]) => trueScore(window) < uneven)
    .slice(0, scenes);
  const readings = await photographed(windows.map(([seed, window]) => shotOf(window, seed)));
  for (const [i, [seed, window]] of windows.entries()) {
    const before = trueScore(window);
    const { score, spots, map } = readings[i];
    const half = halvedMap(map);
    const found = findLamps(half, spots.filter(({ kind }) => kind === 'hot').length);
    if ('refusal' in found) {
      outcomes.push({
        seed,
        refusal: found.refusal.code,
        before,
        predicted: NaN,
        plusMinus: NaN,
        reached: NaN,
        back: null,
      });
      continue;
    }
    const { fit } = found;
    const limits = { x: [4, window.widthMm - 4], y: [0, window.heightMm], z: [6, 24] } as const;
    const tried = fit.model.lamps.map((lamp, index) => {
      const byMm = bestPlace(half, fit, [index], limits);
      return { byMm, lamp, ...forecastMove(half, fit, together([index], byMm), score) };
    });
    const { byMm, lamp, evenness } = tried.reduce((best, one) => (one.evenness.value! > best.evenness.value! ? one : best)); // prettier-ignore
    const reached = trueScore(withMove(window, lamp.xMm, byMm));
    const told = bestMoveBack(half, fit, score);
    const back = told && {
      byMm: told.byMm,
      predicted: told.evenness.value!,
      plusMinus: told.evenness.plusMinus!,
      reached: trueScore(movedBack(window, told.byMm)),
    };
    const predicted = { predicted: evenness.value!, plusMinus: evenness.plusMinus! };
    outcomes.push({ seed, refusal: null, before, ...predicted, reached, back });
  }
}, patienceMs);

const solved = (): Outcome[] => outcomes.filter(({ refusal }) => refusal === null);
const table = (): string => JSON.stringify(outcomes, null, 1);
afterAll(() => {
  if (isLongRun) console.info(table());
});

describe('a lamp moved to where the placement says, rendered anew', () => {
  it('[PL3] refuses at most 3 of 10 scenes that have one or two lamps', () => {
    expect(outcomes).toHaveLength(scenes);
    expect(outcomes.length - solved().length, table()).toBeLessThanOrEqual(0.3 * outcomes.length);
  });

  it('[PL5] raises the score in 9 of 10 and more', () => {
    const raised = solved().filter(({ before, reached }) => reached > before);
    expect(raised.length, table()).toBeGreaterThanOrEqual(0.9 * solved().length);
  });

  it('[PL4] comes out within the plus-minus in 9 of 10 and more, which is at most 4 times the median error', () => {
    const errors = solved().map(({ predicted, reached }) => Math.abs(predicted - reached));
    const held = solved().filter(({ plusMinus }, i) => errors[i] <= plusMinus);
    expect(held.length, table()).toBeGreaterThanOrEqual(0.9 * solved().length);
    const plusMinus = medianOf(solved().map((one) => one.plusMinus));
    // A median error of three scenes says nothing yet.
    if (isLongRun) expect(plusMinus / medianOf(errors), table()).toBeLessThan(4);
  });

  it('[NX4] all lamps moved back as `next` suggests: raised, and within the plus-minus, in 9 of 10 and more', () => {
    const tried = outcomes.flatMap(({ before, back }) => (back === null ? [] : [{ before, ...back }]));
    expect(tried.length, table()).toBeGreaterThanOrEqual(0.7 * solved().length);
    const raised = tried.filter(({ before, reached }) => reached > before);
    expect(raised.length, table()).toBeGreaterThanOrEqual(0.9 * tried.length);
    const held = tried.filter(({ predicted, plusMinus, reached }) => Math.abs(predicted - reached) <= plusMinus);
    expect(held.length, table()).toBeGreaterThanOrEqual(0.9 * tried.length - 1);
  });
});
