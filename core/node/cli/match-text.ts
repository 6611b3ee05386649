import type { Match } from '../../contract/comparison';
import type { Figure } from '../../contract/figure';
import { hatched, printable, shortFigure } from '../../display/figure-text';
import { hangingLines } from './wrap';

const labelWidth = 12;
const figureWidth = 13;

function figureLines(label: string, figure: Figure, words: string, scale = 1): string[] {
  const head = `    ${label.padEnd(labelWidth)}`;
  if (figure.value === null)
    return hangingLines(`${head}${hatched.padStart(figureWidth)}  `, printable(figure.reason ?? ''));
  return hangingLines(`${head}${shortFigure(figure, scale).padStart(figureWidth)}  `, printable(words));
}

/** How alike two windows are, for a person. @rule CL21 */
export function matchLines({ photoOrTrial, windows, brighter, leak, ...figures }: Match): string[] {
  const [a, b] = windows;
  const dimmer = brighter === a ? b : a;
  const light = brighter === null ? 'they cannot be told apart' : `${dimmer} over ${brighter}, which is the brighter`;
  const isLeak = leak.value !== null;
  return [
    '',
    ...hangingLines('  ', printable(`${a} and ${b} in ${photoOrTrial}`)),
    ...(isLeak
      ? figureLines('leak', leak, `% of ${brighter ?? a}'s light reaches ${dimmer}, which is dark`, 100)
      : figureLines('light', figures.luminanceRatio, light)),
    ...figureLines('colour', figures.deltaUv, "10⁻³ u'v' apart", 1000),
    ...figureLines('evenness', figures.evennessDifference, `points, ${b} less ${a}`),
  ];
}
