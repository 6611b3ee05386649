import { hatched, printable, shortFigure } from '../../display/figure-text';
import { rankedFigures, type RankedFigure, type WindowRanking } from '../../contract/comparison';
import type { Figure } from '../../contract/figure';
import type { ComparedReading, ComparedWindow } from '../../compare/compared-window';
import { sharpeningsOf, type Sharpening } from '../../compare/sharpening';
import { hangingLines, lineWidth, padColumns } from './wrap';

interface RankedColumn {
  readonly title: (reading: ComparedReading | undefined) => string;
  readonly of: (reading: ComparedReading) => Figure;
  readonly scale: number;
}

const usual = 'a usual filament lamp';

/** How each figure that trials are put in order by is printed. */
export const rankedColumns: Readonly<Record<RankedFigure, RankedColumn>> = {
  evenness: { title: () => 'Evenness, of 100', of: ({ evenness }) => evenness.score, scale: 1 },
  redPrint: {
    title: (reading) => `Red print, % of ${reading?.redPrint.indexAgainst === 'reference' ? 'the filament' : usual}`,
    of: ({ redPrint }) => redPrint.index,
    scale: 1,
  },
  colour: {
    title: () => "Colour distance to the filament, 10⁻³ u'v'",
    of: ({ colour }) => colour.toReferenceUv,
    scale: 1000,
  },
};

const remedies: Readonly<Record<Sharpening, string>> = {
  darkRoom: 'darken the room, or add a photo with the lamps off',
  sameExposure: 'take them at the same time, f-number and ISO',
  sameView: 'take them with one camera from one place, on a tripod',
  whiteBalance: 'set the white balance by hand',
  curve: 'develop raw files linearly, or take an exposure bracket: the tone curve of these photos is not known',
};

/** What would tell the trials of a group apart, as a sentence. @rule PR9 */
export function sharpeningText(figure: RankedFigure, group: readonly ComparedWindow[]): string {
  const helps = sharpeningsOf(figure, group);
  if (helps.length === 0) return 'They are more alike than photos can tell.';
  return `To tell them apart: ${helps.map((one) => remedies[one]).join('; ')}.`;
}

const rankWidth = 4;
const figureWidth = 13;
const together = '│ cannot be told apart';
const nameWidth = lineWidth - 4 - rankWidth - figureWidth - 2 - together.length;

function groupLines(figure: RankedFigure, rank: number, group: readonly ComparedWindow[]): string[] {
  const { of, scale } = rankedColumns[figure];
  const rows = group.map(({ reading }, i) => {
    const sign = group.length === 1 ? '' : i === 0 ? together : '│';
    const number = i === 0 ? String(rank) : '';
    const name = padColumns(printable(reading.name), nameWidth);
    return `  ${number.padStart(rankWidth - 2)}  ${name}${shortFigure(of(reading), scale).padStart(figureWidth)}  ${sign}`.trimEnd();
  });
  if (group.length === 1) return rows;
  return [...rows, ...hangingLines(' '.repeat(rankWidth + 2), sharpeningText(figure, group))];
}

/** Trials without the figure: those with one reason share a line. */
function notRankedLines(figure: RankedFigure, { notRanked, ...ranked }: WindowRanking): string[] {
  const byReason = new Map<string, string[]>();
  for (const { name, reason } of notRanked[figure]) byReason.set(reason, [...(byReason.get(reason) ?? []), name]);
  // One reason for all needs no names.
  const isOne = byReason.size === 1 && ranked[figure].length === 0;
  return [...byReason].flatMap(([reason, names]) =>
    hangingLines(`  ${hatched.padEnd(rankWidth)}`, printable(isOne ? reason : `${names.join(', ')}: ${reason}`)),
  );
}

function figureLines(
  figure: RankedFigure,
  ranking: WindowRanking,
  trials: readonly ComparedWindow[],
  reference: ComparedReading | undefined,
): string[] {
  const { title, of, scale } = rankedColumns[figure];
  const groups = ranking[figure].map((names) =>
    names.flatMap((name) => trials.filter(({ reading }) => reading.name === name)),
  );
  const own = reference && figure === 'evenness' && of(reference).value !== null;
  const beside = own ? ` (the filament: ${shortFigure(of(reference), scale)})` : '';
  let rank = 1;
  const rows = groups.flatMap((group) => {
    const lines = groupLines(figure, rank, group);
    rank += group.length;
    return lines;
  });
  const [first] = groups.flat();
  return ['', `  ${title(first?.reading)}${beside}`, ...rows, ...notRankedLines(figure, ranking)];
}

/**
 * One window's trials in order, those that cannot be told apart together, with what would tell them apart.
 *
 * @rule CL21
 */
export function rankingLines(
  ranking: WindowRanking,
  trials: readonly ComparedWindow[],
  reference: ComparedReading | undefined,
): string[] {
  return rankedFigures.flatMap((figure) => figureLines(figure, ranking, trials, reference));
}
