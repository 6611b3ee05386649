import type { Figure } from './figure';
import type { ReadingsDocument } from './readings';

/** The figures that trials are put in order by. */
export const rankedFigures = ['evenness', 'redPrint', 'colour'] as const;
export type RankedFigure = (typeof rankedFigures)[number];

/** Names of trials that cannot be told apart, best group first. Within a group the order means nothing. */
export type RankedGroups = readonly (readonly string[])[];

/** A trial that stands in no group, and why. */
export interface NotRanked {
  readonly name: string;
  readonly reason: string;
}

/** The trials of one window in order, by each of the leading figures. */
export interface WindowRanking extends Readonly<Record<RankedFigure, RankedGroups>> {
  readonly notRanked: Readonly<Record<RankedFigure, readonly NotRanked[]>>;
}

/** The ranking of the first window, and of each window by its name. */
export interface Ranking extends WindowRanking {
  readonly windows: Readonly<Record<string, WindowRanking>>;
}

export interface ComparedFigure {
  /** b - a; of luminance ln(b / a). */
  readonly difference: Figure;
  readonly toldApart: boolean;
}

/** Two trials of one window. */
export interface Pair {
  readonly a: string;
  readonly b: string;
  readonly window: string;
  /** Of the score, points. */
  readonly evenness: ComparedFigure;
  /** Of the red-print index, per cent of the reference. */
  readonly redPrint: ComparedFigure;
  /** Of the distance to the reference in u'v': below 0 when b is nearer to it. */
  readonly colour: ComparedFigure;
  readonly luminance: ComparedFigure;
}

/** How alike two windows are, in one photo or in two. */
export interface Match {
  /** The trial whose photo shows both; `first / second` when they are in two photos. */
  readonly photoOrTrial: string;
  readonly windows: readonly [string, string];
  /** Dimmer over brighter, 0..1. */
  readonly luminanceRatio: Figure;
  /** The brighter window; null when they cannot be told apart. */
  readonly brighter: string | null;
  /** Distance of the two colours in u'v'. */
  readonly deltaUv: Figure;
  /** Score of the second window less the first's. */
  readonly evennessDifference: Figure;
  /** Light of the lit window in the dark one, as a share of the lit one's; only when one of them is dark. */
  readonly leak: Figure;
}

export interface Comparison {
  readonly ranking: Ranking;
  readonly pairs: readonly Pair[];
  readonly match: readonly Match[];
}

/** What `compare --json` prints. */
export type ComparisonDocument = ReadingsDocument & Comparison;
