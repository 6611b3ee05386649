import { AppError } from '../../base/errors';
import { createMask, createPlane, type Plane } from '../../base/plane';
import { figure, type Figure } from '../../contract/figure';
import { leastScoreDifference } from '../../compare/pairs';
import { coverageFactor } from '../../reading/uncertainty';
import {
  bentLight,
  doubtOf,
  halvedMap,
  lensPoints,
  type CarriedDoubt,
  scoreOfLight,
  type MeasuredMap,
} from '../measured-map';

/** One lamp lit alone. */
export interface SingleLamp {
  readonly name: string;
  readonly score: Figure;
  readonly map: MeasuredMap;
}

export interface LampSum {
  /** Current of each lamp over what it had when it was photographed. */
  readonly ratios: readonly number[];
  readonly evenness: Figure;
  /** Of all lamps together, in the unit of the maps; NaN where one of them was not measured. */
  readonly light: Plane;
}

export interface BestSum extends LampSum {
  /** Each ratio with the range in which the score cannot be told apart from the best. */
  readonly ratioFigures: readonly Figure[];
}

/** What light in step with the current leaves open, k = 1, points. */
const repeatPoints = 0.5;

function refuse(code: string, message: string, remedy: string): never {
  throw new AppError('refusal', code, message, remedy);
}

/** @throws AppError LAMPS_TOO_FEW, LAMPS_OF_OTHER_SIZES, LAMPS_EXPOSURE_UNKNOWN */
function checkLamps(lamps: readonly SingleLamp[]): void {
  if (lamps.length < 2) refuse('LAMPS_TOO_FEW', 'one lamp alone is no sum', 'Name a reading for each lamp lit alone.');
  const [first, ...others] = lamps.map(({ map }) => map);
  for (const [i, map] of others.entries()) {
    if (map.widthMm === first.widthMm && map.heightMm === first.heightMm && map.pxPerMm === first.pxPerMm) continue;
    const message = `${lamps[i + 1].name} and ${lamps[0].name} are windows of different sizes`;
    refuse('LAMPS_OF_OTHER_SIZES', message, 'Measure both with the same --size.');
  }
  const unknown = lamps.find(({ map }) => !map.isExposureNormalised);
  if (unknown !== undefined) {
    const message = `the exposure of ${unknown.name} is not known, so its light cannot be added`;
    refuse('LAMPS_EXPOSURE_UNKNOWN', message, 'Give --exposure when you measure, and take all photos alike.');
  }
}

/** The lamps on one grid, cells that all of them have; cells of half a mm are enough for a score. */
function onOneGrid(lamps: readonly SingleLamp[]): MeasuredMap[] {
  const maps = lamps.map(({ map }) => halvedMap(map));
  const glow = createMask(maps[0].light.width, maps[0].light.height);
  for (let i = 0; i < glow.values.length; i++) glow.values[i] = maps.every((map) => map.glow.values[i] === 1) ? 1 : 0;
  return maps.map((map) => ({ ...map, glow }));
}

function summed(maps: readonly MeasuredMap[], ratios: readonly number[]): Plane {
  const { width, height } = maps[0].light;
  const sum = createPlane(width, height);
  maps.forEach(({ light }, lamp) => {
    for (let i = 0; i < sum.values.length; i++) sum.values[i] += ratios[lamp] * light.values[i];
  });
  return sum;
}

/** What the photos leave open of the light of all: the least sure of them says. */
function doubtOfAll(lamps: readonly SingleLamp[]): CarriedDoubt {
  const doubts = lamps.map(({ score }) => doubtOf(score));
  return {
    bend: Math.max(...doubts.map(({ bend }) => bend)),
    points: Math.max(...doubts.map(({ points }) => points)),
  };
}

function sumOn(maps: readonly MeasuredMap[], ratios: readonly number[], doubt: CarriedDoubt): LampSum {
  const scoreAt = (exponent: number): number =>
    scoreOfLight(maps[0], summed(maps.map((map) => ({ ...map, light: bentLight(map.light, exponent) })), ratios)); // prettier-ignore
  const light = summed(maps, ratios);
  const score = scoreOfLight(maps[0], light);
  const open = Math.max(...[-1, 1].map((way) => Math.abs(scoreAt(1 + way * doubt.bend) - score)));
  const values = light.values.map((value, i) => (maps[0].glow.values[i] ? value : NaN));
  return {
    ratios,
    evenness: figure(score, coverageFactor * Math.hypot(repeatPoints, doubt.points, open, lensPoints(maps[0], light))),
    light: { ...light, values },
  };
}

/**
 * The light of several lamps, each photographed alone, at any currents.
 *
 * Light adds up: sum of ratio x map, in linear light; no model of a lamp. Plus-minus: what the photos leave open (AV2), the
 * tone curve as a bend of every map, the lens at the ends, and 1 point.
 *
 * @param ratios of each lamp's current to that of its photo, 0 or more, not all 0
 * @throws AppError LAMPS_TOO_FEW, LAMPS_OF_OTHER_SIZES, LAMPS_EXPOSURE_UNKNOWN
 * @source superposition of light; light in step with the current: our own choice (LA7)
 * @rule SL1
 */
export function addLamps(lamps: readonly SingleLamp[], ratios: readonly number[]): LampSum {
  checkLamps(lamps);
  if (ratios.length !== lamps.length) {
    const message = `${ratios.length} ratios for ${lamps.length} lamps`;
    refuse('RATIOS_INVALID', message, 'Give one ratio for each lamp, as --ratio 1:0.8.');
  }
  return sumOn(onOneGrid(lamps), ratios, doubtOfAll(lamps));
}

/** Steps of a current that are tried, from coarse to fine. */
const searchSteps = [2, 1.41, 1.19, 1.09, 1.04] as const;
/** An LED is not driven further apart from its neighbours. */
const mostRatio = 8;

/** The range of one lamp's ratio within which the score stays as good as told apart. */
function openRange(scoreAt: (ratio: number) => number, best: number, bestScore: number): Figure {
  const endOf = (factor: number): number => {
    let ratio = best;
    while (ratio * factor <= mostRatio && ratio * factor >= 1 / mostRatio) {
      if (scoreAt(ratio * factor) < bestScore - leastScoreDifference) break;
      ratio *= factor;
    }
    return ratio * factor;
  };
  return figure(best, (endOf(1.05) - endOf(1 / 1.05)) / 2);
}

/**
 * The currents that make the sum most even, the first lamp's kept: each ratio in turn, in ever finer steps.
 *
 * @throws AppError as `addLamps`
 * @source our own choice: pattern search (Hooke & Jeeves 1961, from memory) without chance
 * @rule SL2
 */
export function bestCurrents(lamps: readonly SingleLamp[]): BestSum {
  checkLamps(lamps);
  const maps = onOneGrid(lamps);
  const scoreOf = (ratios: readonly number[]): number => scoreOfLight(maps[0], summed(maps, ratios));
  const withOne = (ratios: readonly number[], lamp: number, value: number): number[] =>
    ratios.map((ratio, i) => (i === lamp ? value : ratio));
  let best = lamps.map(() => 1);
  let bestScore = scoreOf(best);
  for (const step of searchSteps) {
    for (let isBetter = true; isBetter;) {
      isBetter = false;
      for (let lamp = 1; lamp < lamps.length; lamp++) {
        for (const value of [best[lamp] * step, best[lamp] / step]) {
          if (value > mostRatio || value < 1 / mostRatio) continue;
          const score = scoreOf(withOne(best, lamp, value));
          if (score <= bestScore + 1e-9) continue;
          [best, bestScore, isBetter] = [withOne(best, lamp, value), score, true];
        }
      }
    }
  }
  const ratioFigures = best.map((ratio, lamp) =>
    lamp === 0 ? figure(1, 0) : openRange((value) => scoreOf(withOne(best, lamp, value)), ratio, bestScore),
  );
  return { ...sumOn(maps, best, doubtOfAll(lamps)), ratioFigures };
}
