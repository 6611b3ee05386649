import type { ComparedFigure, Pair, RankedFigure } from '../../core/contract/comparison';
import type { Figure } from '../../core/contract/figure';

/** How one photo stands to another in one figure. */
export interface Standing {
  readonly label: string;
  /** This photo's less the other's, in the unit of the figure. */
  readonly difference: Figure;
  /** What the figure is multiplied by to be shown. */
  readonly scale: number;
  readonly unit: string;
  /** `better`, `worse`, `cannot be told apart`, or why there is no answer. */
  readonly word: string;
}

const turned = ({ value, ...rest }: Figure): Figure => ({ value: value === null ? null : -value, ...rest });

/** A difference of logarithms as a ratio. */
function ratioOf({ value, plusMinus, ...rest }: Figure): Figure {
  if (value === null || plusMinus === null) return { value, plusMinus, ...rest };
  return { ...rest, value: Math.exp(value), plusMinus: Math.exp(value) * plusMinus };
}

function wordOf(
  { difference, toldApart }: ComparedFigure,
  isBetter: boolean | null,
  more: string,
  less: string,
): string {
  if (difference.value === null) return difference.reason ?? 'not measured';
  if (!toldApart) return 'cannot be told apart';
  if (isBetter === null) return difference.value > 0 ? more : less;
  return isBetter ? 'better' : 'worse';
}

/** Which way is better: up for evenness, down for the colour distance; for red print it depends on where 100 lies. */
function isRise(figure: RankedFigure, difference: Figure): boolean | null {
  if (difference.value === null || figure === 'redPrint') return null;
  return figure === 'evenness' ? difference.value > 0 : difference.value < 0;
}

/**
 * How photo `a` stands to photo `b`, in four lines.
 *
 * @param pair    of the two, in either order, by their ids
 * @param nameOf  what the user calls a photo; reasons name it by its id
 */
export function standings(pair: Pair, a: string, nameOf: (id: string) => string): Standing[] {
  const seenFrom = ({ difference, toldApart }: ComparedFigure): ComparedFigure => ({
    // A pair holds b less a.
    difference: pair.a === a ? turned(difference) : difference,
    toldApart,
  });
  const inNames = (reason: string): string =>
    [pair.a, pair.b].reduce((text, id) => text.replaceAll(id, nameOf(id)), reason);
  const line = (
    figure: RankedFigure | 'luminance',
    label: string,
    scale: number,
    unit: string,
    words: readonly [string, string],
  ): Standing => {
    const compared = seenFrom(pair[figure]);
    const better = figure === 'luminance' ? null : isRise(figure, compared.difference);
    const { reason } = compared.difference;
    const difference = reason === undefined ? compared.difference : { ...compared.difference, reason: inNames(reason) };
    return { label, difference, scale, unit, word: inNames(wordOf(compared, better, ...words)) };
  };
  const ratio = ratioOf(seenFrom(pair.luminance).difference);
  return [
    line('evenness', 'Evenness', 1, 'points', ['', '']),
    line('redPrint', 'Red print', 1, '% of filament', ['redder', 'less red']),
    line('colour', 'Colour distance', 1000, '10⁻³ u′v′', ['', '']),
    { ...line('luminance', 'Luminance', 1, 'times the other', ['brighter', 'dimmer']), difference: ratio },
  ];
}

/** One sentence: what is better about `a`, what is worse, and what cannot be told. */
export function standingLine(lines: readonly Standing[], other: string): string {
  const named = (word: string): string =>
    lines
      .filter((line) => line.word === word)
      .map(({ label }) => label.toLowerCase())
      .join(' and ');
  const [better, worse] = [named('better'), named('worse')];
  if (better && worse) return `Better in ${better}, worse in ${worse} than ${other}.`;
  if (better) return `Better in ${better} than ${other}.`;
  if (worse) return `Worse in ${worse} than ${other}.`;
  return `Cannot be told apart from ${other}.`;
}
