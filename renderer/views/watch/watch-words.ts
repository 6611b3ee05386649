import type { WatchShown } from '../../../core/contract/watch';
import { shortFigure } from '../../../core/display/figure-text';
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

function signed(figure: Parameters<typeof shortFigure>[0], scale = 1): string {
  return `${(figure.value ?? 0) > 0 ? '+' : ''}${shortFigure(figure, scale)}`;
}

function comparedLine(verdict: Extract<WatchVerdict, { kind: 'better' | 'worse' | 'alike' }>): WatchLine {
  const [evenness, ...others] = verdict.standings;
  const word = { better: 'Better', worse: 'Worse', alike: 'Cannot tell' }[verdict.kind];
  const mark = { better: 'up', worse: 'down', alike: 'alike' } as const;
  const hasFigure = evenness.difference.value !== null;
  const rest = others
    .filter(({ label }) => label !== 'Luminance')
    .map(({ label, word: said, difference, scale }) =>
      difference.value === null ? `${label}: no figure, ${said}` : `${label} ${signed(difference, scale)}: ${said}`,
    );
  const why = hasFigure ? '' : ` (${evenness.word})`;
  return {
    mark: mark[verdict.kind],
    word,
    by: hasFigure ? signed(evenness.difference) : '',
    second: `Evenness of ${verdict.name} against the best so far, ${verdict.bestName}${why}. ${rest.join('. ')}.`,
  };
}

/** The line about the photo that arrived last. @param evenness  its own, as printed */
export function watchLine(verdict: WatchVerdict | null, watch: WatchShown, evenness: string): WatchLine {
  if (watch.gone !== null) {
    const second = `${watch.folder}: ${watch.gone}. It is taken up again when it is back; nothing on the bench is lost.`;
    return { mark: 'open', word: 'Folder gone', by: '', second };
  }
  if (verdict === null) {
    const second = `What arrives in ${watch.folder} is measured by itself.`;
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
        by: evenness,
        second: `${name}: evenness of 100. The next is compared with it.`,
      };
    case 'better':
    case 'worse':
    case 'alike':
      return comparedLine(verdict);
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
