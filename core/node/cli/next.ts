import { suggestNext } from '../../advice/next/suggest';
import type { NextDocument } from '../../contract/next-advice';
import { shortFigure } from '../../display/figure-text';
import { readArguments, usageError } from './arguments';
import { readMappedReading } from './mapped-reading';
import { jsonText } from './rounded';
import type { Shell } from './shell';
import { hangingLines } from './wrap';

const rules = { command: 'next', values: ['reading'], flags: ['json'] };

function textOf({ suggestions, cautions, note }: NextDocument): string {
  if (note !== null) return `  No suggestion: ${note}.\n`;
  const common = cautions.flatMap((caution) => hangingLines('  ! ', caution));
  const lines = suggestions.flatMap(({ words, why, gain, effort, limits, ownCaution }, i) => [
    ...hangingLines(`  ${i + 1}. `, words),
    ...hangingLines('     why      ', why),
    `     gain     ${shortFigure(gain)} points of evenness`,
    ...hangingLines('     limits   ', limits),
    `     effort   ${effort}`,
    ...hangingLines('     caution  ', ownCaution),
    '',
  ]);
  return [...common, '', ...lines].join('\n');
}

/** `evendial next`: what to change next, from one reading. @returns the exit code @rule NX3 */
export async function runNext(words: readonly string[], shell: Shell): Promise<number> {
  const { values, flags, files } = readArguments(words, rules);
  if (files.length > 0) throw usageError(`next takes no ${JSON.stringify(files[0])}`, "See 'evendial help next'.");
  const name = values.get('reading');
  if (name === undefined) {
    throw usageError('next needs --reading READINGS.json[#NAME]', "'evendial help next' shows an example.");
  }
  const document = suggestNext(await readMappedReading('reading', name, shell));
  await shell.print(flags.has('json') ? jsonText(document) : textOf(document));
  return 0;
}

/** `evendial help next`. */
export const nextHelp = `evendial next --reading READINGS.json[#NAME] [--json]

What to change next, from one reading with its maps (measure with --maps DIR --json): the cheaper
and gentler first, a shade last, each with the points of evenness that it may gain, the effort and
what to heed. Only what gains more than it leaves open is suggested; a calm window gets nothing.

Gains of a white box, of wide lamps and of diffusers are directions: 15 points either way.

Exit: 0 done, with suggestions or without; 2 wrong usage or file.

  evendial next --reading readings.json
`;
