import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { medianOf } from '../../core/base/stats';
import { isGainSure } from '../../core/advice/shade/check-shade';
import { planShade, type ShadePlan } from '../../core/advice/shade/plan-shade';
import type { LitWindow } from '../../samples/render/index';
import type { Figure } from '../../core/contract/figure';
import type { Lamp } from '../../samples/render/light/lamp';
import { chance, photographed, shotOf, trueScore, windowOf } from '../support/advice/scenes';
import { isLongRun, patienceMs } from '../support/long-run';

/** Scenes of these seeds were never looked at while the shade was made. */
const firstSeed = 56_000;
const scenes = isLongRun ? 60 : 3;

const sizes = [
  { widthMm: 92, heightMm: 18 },
  { widthMm: 60, heightMm: 20 },
  { widthMm: 40, heightMm: 16 },
];

/** A shade as it comes to be mounted: the gap as it was measured and as it is, and how far aside it was stuck, mm. */
interface Mounted {
  readonly statedGapMm: number;
  readonly trueGapMm: number;
  readonly asideMm: readonly [number, number];
}

/** Lamps behind a sheet of tracing paper, one to three, bare or with some light of the box. */
function behindPaper(seed: number): { window: LitWindow; mounted: Mounted } {
  const { between, is } = chance(seed);
  const size = sizes[seed % sizes.length];
  const statedGapMm = between(0.8, 4);
  const trueGapMm = statedGapMm * between(0.75, 1.25);
  const count = size.widthMm > 50 ? (is(0.5) ? 2 : 3) : is(0.5) ? 1 : 2;
  const lamps = Array.from({ length: count }, (_, i): Lamp => {
    const [from, to] = [i / count + 0.08, (i + 1) / count - 0.08];
    const place = { xMm: between(from, to) * size.widthMm, yMm: between(0.15, 0.85) * size.heightMm };
    return {
      light: 'warm-white',
      ...place,
      zMm: trueGapMm + between(5, 14),
      lobe: between(0.8, 3),
      flux: between(10, 20),
    };
  });
  const window = windowOf(size, 'warm-white', lamps, { diffuseShare: between(0.45, 0.8), sheet: { gapMm: trueGapMm } });
  return { window, mounted: { statedGapMm, trueGapMm, asideMm: [between(-0.7, 0.7), between(-0.7, 0.7)] } };
}

/** The same window with the planned shade printed on its paper. */
function withShade(
  window: LitWindow,
  { transmission, pxPerMm }: ShadePlan,
  { asideMm, trueGapMm }: Mounted,
): LitWindow {
  const at = (position: number, length: number): number =>
    Math.min(Math.max(Math.floor(position * pxPerMm), 0), length - 1);
  const { width, height, values } = transmission;
  const through = (xMm: number, yMm: number): number =>
    values[at(yMm - asideMm[1], height) * width + at(xMm - asideMm[0], width)];
  return { ...window, box: { ...window.box, sheet: { gapMm: trueGapMm, transmission: through } } };
}

/** Put on its marks by hand a shade comes within a third of a mm; without them within 0.7. */
const onMarks = 0.5;
/** As far aside as the worst forecast reckons with, mm. */
const farAside = [[1, 0], [-1, 0], [0, 1], [0, -1]] as const; // prettier-ignore

interface Outcome {
  readonly seed: number;
  readonly before: number;
  readonly worst: number;
  readonly onMarks: Figure;
  /** With the shade a little off, on its marks as well as a hand puts it there, and at the worst of 1 mm aside; all at the true gap. */
  readonly reached: number;
  readonly reachedOnMarks: number;
  readonly reachedAside: number;
  readonly isOffered: boolean;
}
const outcomes: Outcome[] = [];

beforeAll(async () => {
  const drawn = Array.from({ length: 3 * scenes }, (_, i) => ({ seed: firstSeed + i, ...behindPaper(firstSeed + i) }))
    .filter(({ window }) => trueScore(window) < 90)
    .slice(0, scenes);
  const readings = await photographed(drawn.map(({ window, seed }) => shotOf(window, seed)));
  for (const [i, { seed, window, mounted }] of drawn.entries()) {
    const { score, map } = readings[i];
    const plan = planShade(map, { gapMm: mounted.statedGapMm, targetPercent: 20, style: 'halftone' }, score);
    const reach = (asideMm: readonly [number, number]): number =>
      trueScore(withShade(window, plan, { ...mounted, asideMm }));
    outcomes.push({
      seed,
      before: trueScore(window),
      worst: plan.evennessAfter.value!,
      onMarks: plan.evennessOnMarks,
      reached: reach(mounted.asideMm),
      reachedOnMarks: reach([onMarks * mounted.asideMm[0], onMarks * mounted.asideMm[1]]),
      reachedAside: Math.min(...farAside.map(reach)),
      isOffered: isGainSure(score, plan.evennessAfter),
    });
  }
}, patienceMs);

const table = (): string => JSON.stringify(outcomes, null, 1);
afterAll(() => {
  if (isLongRun) console.info(table());
});

describe('a shade printed as planned, at a gap and place a little off, rendered', () => {
  const fewFail = (name: string, share: number, holds: (outcome: Outcome) => boolean): void =>
    expect(outcomes.filter((outcome) => !holds(outcome)).length, `${name}\n${table()}`).toBeLessThanOrEqual(
      Math.ceil(share * outcomes.length),
    );

  it('[AV6] gives the stated worst or more in 19 of 20', () => {
    fewFail('worst', 0.05, ({ worst, reached }) => reached >= worst);
  });

  it('[AV6] gives at most 10 points more than the stated worst where it is 1 mm aside', () => {
    // A careful shade is not told worse than a careless one may be.
    fewFail('aside', 0.05, ({ worst, reached, reachedAside }) => Math.min(reached, reachedAside) - worst <= 10);
  });

  it('[AV6] gives on its marks what is stated, within the plus-minus, which is no wider than it must be', () => {
    const errors = outcomes.map(({ onMarks, reachedOnMarks }) => Math.abs(onMarks.value! - reachedOnMarks));
    fewFail('on its marks', 0.1, ({ onMarks, reachedOnMarks }) => Math.abs(onMarks.value! - reachedOnMarks) <= onMarks.plusMinus!); // prettier-ignore
    // The median of errors of a handful of scenes is anything.
    if (isLongRun) expect(medianOf(outcomes.map(({ onMarks }) => onMarks.plusMinus!))).toBeLessThan(4 * medianOf(errors)); // prettier-ignore
  });

  it('[AV7] is offered only where it makes the glow more even', () => {
    const offered = outcomes.filter(({ isOffered }) => isOffered);
    expect(offered.length, table()).toBeGreaterThan(0.5 * outcomes.length);
    for (const { before, reached } of offered) expect(reached).toBeGreaterThan(before);
  });
});
