import type { Sample } from '../sample-list';
import type { PhotoTruth, WindowTruth } from '../truth-file';
import type { SampleSet } from './set';

/** One window of one try against the set's reference, from light field and spectra. */
export interface TryTruth {
  readonly name: string;
  readonly window: string;
  readonly score: number;
  readonly coefficientOfVariation: number;
  readonly leftOverRight: number;
  readonly glowMeanRelative: number;
  /** Redness of the red print over the reference's, per cent. */
  readonly redPrintIndex?: number;
  /** Distance of the mean colours in u'v'. */
  readonly toReferenceUv?: number;
  /** Mean luminance of the glow over the reference's. */
  readonly luminanceRatio?: number;
}

export interface SetTruth {
  readonly format: 'evendial-set-truth';
  readonly version: 1;
  readonly madeBy: 'samples/render';
  readonly about: string;
  readonly reference: { readonly file: string; readonly window: string } | null;
  readonly tries: readonly TryTruth[];
  /** The tries of each window in groups from the evenest to the least even; within a group neighbours differ by less than a point. */
  readonly evennessBestFirst: Readonly<Record<string, readonly (readonly string[])[]>>;
}

function against(reference: WindowTruth, { figures, redPrint }: WindowTruth): Partial<TryTruth> {
  return {
    ...(redPrint && reference.redPrint ? { redPrintIndex: (100 * redPrint.redness) / reference.redPrint.redness } : {}),
    toReferenceUv: Math.hypot(figures.uPrime - reference.figures.uPrime, figures.vPrime - reference.figures.vPrime),
    luminanceRatio: figures.glowMeanRelative / reference.figures.glowMeanRelative,
  };
}

/** Below this two scores are called alike: no camera tells them apart. */
const alikePoints = 1;

function bestFirst(tries: readonly TryTruth[]): Record<string, string[][]> {
  const windows = [...new Set(tries.map(({ window }) => window))];
  return Object.fromEntries(windows.map((window) => [window, groupsOf(tries.filter((one) => one.window === window))]));
}

function groupsOf(tries: readonly TryTruth[]): string[][] {
  const groups: string[][] = [];
  let above = Infinity;
  for (const { name, score } of [...tries].sort((a, b) => b.score - a.score)) {
    if (above - score < alikePoints) groups[groups.length - 1].push(name);
    else groups.push([name]);
    above = score;
  }
  // Alike scores may stand in another order on another machine.
  const order = tries.map(({ name }) => name);
  return groups.map((names) => names.sort((a, b) => order.indexOf(a) - order.indexOf(b)));
}

/**
 * What is true of a set as a whole: each try against the reference and the order by evenness.
 *
 * @param truthOf  the truth of one of its photos
 */
export function setTruth(set: SampleSet, truthOf: (photo: Sample) => PhotoTruth): SetTruth {
  const { reference } = set;
  const references = reference ? truthOf(reference.photo).windows : [];
  const chosen = references.find(({ name }) => reference?.window === undefined || name === reference.window) ?? null;
  const tries = set.tries.flatMap(({ name, photos }) =>
    truthOf(photos[0]).windows.map((one): TryTruth => ({
      name,
      window: one.name,
      score: one.figures.score,
      coefficientOfVariation: one.figures.coefficientOfVariation,
      leftOverRight: one.figures.leftOverRight,
      glowMeanRelative: one.figures.glowMeanRelative,
      ...(chosen ? against(chosen, one) : {}),
    })),
  );
  return {
    format: 'evendial-set-truth',
    version: 1,
    madeBy: 'samples/render',
    about: set.about,
    reference: reference && chosen ? { file: reference.photo.file, window: chosen.name } : null,
    tries,
    evennessBestFirst: bestFirst(tries),
  };
}
