import type { Figure } from '../../../core/contract/figure';
import type { WatchShown } from '../../../core/contract/watch';
import { shortFigure } from '../../../core/display/figure-text';
import type { Standing } from '../../state/pair-words';
import type { WatchVerdict } from '../../state/watch-verdict';

export type WatchMark = 'up' | 'down' | 'alike' | 'open' | 'none';

export interface WatchLine {
  readonly mark: WatchMark;
  /** One or two words, to be read from afar. */
  readonly word: string;
  /** A figure beside it, as far to be read; empty: none. */
  readonly by: string;
  /** What it means, from near. */
  readonly second: string;
}

/** A difference with its sign, as it is set in print. */
function signed(figure: Figure, scale = 1): string {
  return `${(figure.value ?? 0) > 0 ? '+' : ''}${shortFigure(figure, scale).replace('-', '\u2212')}`;
}

/** `Red print better, +12 ± 8`; of a missing figure only that it is missing: why stands in the verdict column. */
function standingWords({ label, word, difference, scale }: Standing): string {
  return difference.value === null ? `${label}: no figure` : `${label} ${word}, ${signed(difference, scale)}`;
}

/** Evenness as printed, of the photo and of the best so far. */
export interface PrintedEvenness {
  readonly own: string;
  readonly best: string;
}

function comparedLine(
  verdict: Extract<WatchVerdict, { kind: 'better' | 'worse' | 'alike' }>,
  evenness: PrintedEvenness,
): WatchLine {
  const [ofEvenness, ...others] = verdict.standings;
  const mark = { better: 'up', worse: 'down', alike: 'alike' } as const;
  const rest = others.filter(({ label }) => label !== 'Luminance').map(standingWords);
  return {
    mark: mark[verdict.kind],
    word: { better: 'Better', worse: 'Worse', alike: 'Cannot tell' }[verdict.kind],
    by: ofEvenness.difference.value === null ? '' : signed(ofEvenness.difference),
    second: `${verdict.name}: evenness ${evenness.own}, the best so far ${evenness.best} (${verdict.bestName}). ${rest.join('. ')}.`,
  };
}

/** The line about the photo that arrived last. */
export function watchLine(verdict: WatchVerdict | null, watch: WatchShown, evenness: PrintedEvenness): WatchLine {
  if (watch.gone !== null) {
    const second = `${watch.folder}: ${watch.gone}. It is taken up again when it is back; nothing on the bench is lost.`;
    return { mark: 'open', word: 'Folder gone', by: '', second };
  }
  if (verdict === null) {
    const second = `What arrives in ${watch.folder} is measured by itself. Begin with the filament lamp.`;
    return { mark: 'none', word: 'Ready', by: '', second };
  }
  const { name } = verdict;
  switch (verdict.kind) {
    case 'working':
      return { mark: 'none', word: 'Measuring', by: '', second: name };
    case 'first':
      return {
        mark: 'none',
        word: 'First try',
        by: evenness.own,
        second: `${name}: evenness of 100. What comes next is compared with it.`,
      };
    case 'better':
    case 'worse':
    case 'alike':
      return comparedLine(verdict, evenness);
    case 'dark':
      return {
        mark: 'open',
        word: 'Lamp off?',
        by: '',
        second: `${name} shows hardly any of the light that the window had.`,
      };
    case 'not-carried':
      return {
        mark: 'open',
        word: 'No outline',
        by: '',
        second: `${name}: ${verdict.reason}, so the outline of ${verdict.from} was not carried over. It was searched anew: look at it, or set it.`,
      };
    case 'refused':
      return { mark: 'open', word: 'No verdict', by: '', second: `${name}: ${verdict.reason} ${verdict.remedy}` };
    case 'failed':
      return {
        mark: 'open',
        word: 'Not measured',
        by: '',
        second: `${name}: ${verdict.error.message} ${verdict.error.remedy}`,
      };
  }
}

const counted = (count: number, one: string, many: string): string => `${count} ${count === 1 ? one : many}`;

/** What the folder has given so far. */
export function watchCounts({ laid, repeated, others, arriving }: WatchShown): string {
  const parts = [counted(laid, 'photo', 'photos')];
  if (arriving.length > 0) parts.push(`${arriving.length} arriving`);
  if (repeated > 0) parts.push(counted(repeated, 'came again', 'came again'));
  if (others > 0) parts.push(`${counted(others, 'other file', 'other files')} left alone`);
  return parts.join(', ');
}
