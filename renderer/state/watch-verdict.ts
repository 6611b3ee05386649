import type { BenchError, PhotoId } from '../../core/contract/bench';
import type { Pair } from '../../core/contract/comparison';
import type { Reading } from '../../core/contract/readings';
import { standings, type Standing } from './pair-words';

/** What is said of a photo that arrived, in one line. */
export type WatchVerdict = { readonly photo: PhotoId; readonly name: string } & (
  | { readonly kind: 'working' }
  /** The first of its window: nothing to be compared with. */
  | { readonly kind: 'first' }
  /** Evenness against the best so far; then the other figures. */
  | {
      readonly kind: 'better' | 'worse' | 'alike';
      readonly best: PhotoId;
      readonly bestName: string;
      readonly standings: readonly Standing[];
    }
  /** The lamp may be off; the user says whether it is. */
  | { readonly kind: 'dark' }
  /** The window is not where it was, and not known from its print. */
  | { readonly kind: 'not-carried'; readonly from: string; readonly reason: string }
  /** There is no evenness to compare. */
  | { readonly kind: 'refused'; readonly reason: string; readonly remedy: string }
  | { readonly kind: 'failed'; readonly error: BenchError }
);

/** A measured photo that may be the best so far. */
export interface Rival {
  readonly id: PhotoId;
  readonly name: string;
  readonly reading: Reading;
}

/** The one with the highest score; null when none has one. Whether the next is told apart from it, `compare` says. */
export function bestOf<Some extends Rival>(rivals: readonly Some[]): Some | null {
  const scoreOf = ({ reading }: Rival): number => reading.evenness.score.value ?? -Infinity;
  const best = rivals.reduce<Some | null>((so, one) => (so && scoreOf(so) >= scoreOf(one) ? so : one), null);
  return best && scoreOf(best) > -Infinity ? best : null;
}

/** Why a reading has no evenness, and what to do: its gravest check, else the figure's own reason. */
export function refusalOf({ evenness, gates }: Reading): { readonly reason: string; readonly remedy: string } | null {
  if (evenness.score.value !== null) return null;
  const gate = gates.find(({ level, affects }) => level === 'refuse' && affects.includes('evenness'));
  return gate
    ? { reason: gate.message, remedy: gate.remedy }
    : { reason: evenness.score.reason ?? 'not measured', remedy: 'See the photo checks.' };
}

/** The line about a photo that was compared with the best so far. */
export function comparedVerdict(photo: Rival, best: Rival, pair: Pair): WatchVerdict {
  const names = new Map([photo, best].map(({ id, name }) => [id, name]));
  const lines = standings(pair, photo.id, (id) => names.get(id) ?? id);
  const { word } = lines[0];
  const kind = word === 'better' || word === 'worse' ? word : 'alike';
  return { photo: photo.id, name: photo.name, kind, best: best.id, bestName: best.name, standings: lines };
}
