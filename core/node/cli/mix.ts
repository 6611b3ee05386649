import { adviseMix } from '../../advice/lamp-mix';
import type { MixDocument, MixLampEntry } from '../../contract/lamp-advice';
import { printable } from '../../display/figure-text';
import { triedWords } from '../../display/tried-words';
import { readArguments } from './arguments';
import { exitCodeOf } from './exit-codes';
import { readMix } from './mix-options';
import { jsonText } from './rounded';
import type { Shell } from './shell';
import { hangingLines } from './wrap';

const rules = {
  command: 'mix',
  values: [
    'supply',
    'supply-ac',
    'hz',
    'capacitor',
    'supply-without-lamp',
    'target',
    'current',
    'e-series',
    'scale-dye',
    'filament',
    'measured',
    'measured-currents',
    'before',
    'before-currents',
  ],
  flags: ['json', 'same-lens'],
  lists: ['lamp'],
};

const number = (value: number | null, digits = 3): string =>
  value === null ? '-' : `${Number(value.toPrecision(digits))}`;

function lampLine(lamp: MixLampEntry): string {
  const share = `${(100 * lamp.luminanceShare).toFixed(0)} %`;
  const drop = lamp.dropShare === null ? '-' : `${(100 * lamp.dropShare).toFixed(0)} %`;
  const columns = [
    share,
    number(lamp.currentMa),
    number(lamp.resistorOhm, 4),
    number(lamp.nearestOhm, 6),
    number(lamp.currentWithNearestMa),
    number(lamp.currentAtSupplyPlus10Ma),
    number(lamp.resistorMw),
    number(lamp.ratedMw),
    drop,
  ];
  return `  ${printable(lamp.name).slice(0, 14).padEnd(14)}${columns.map((text) => text.padStart(8)).join('')}`;
}

function textOf(document: MixDocument): string {
  const { reached, missUv, missSteps, redPrintForecast: red, refusal, tried, correction } = document;
  const heads = ['light', 'mA', 'ohm', 'buy ohm', 'mA then', '+10 % mA', 'mW', 'rated mW', 'drop'];
  const cct = reached.cctK === null ? '' : `, ${reached.cctK.toFixed(0)} K`;
  const colour = `u' ${reached.uPrime.toFixed(4)}, v' ${reached.vPrime.toFixed(4)}${cct}, Duv ${reached.duv.toFixed(4)}`;
  const miss = `${missUv.toFixed(4)} u'v' (${missSteps.toFixed(1)} steps) from the target`;
  const factors = correction?.factors.map((factor, i) => `${printable(document.lamps[i].name)} x ${factor.toFixed(3)}`);
  return [
    `  ${''.padEnd(14)}${heads.map((text) => text.padStart(8 + (text === '+10 % mA' || text === 'rated mW' ? 1 : 0))).join('')}`,
    ...document.lamps.map(lampLine),
    '',
    ...hangingLines('  Glow       ', `${colour}; ${miss}`),
    ...(red === null
      ? []
      : hangingLines(
          '  Red print  ',
          `${red.index.toFixed(0)} % of the filament's (${red.low.toFixed(0)} to ${red.high.toFixed(0)})`,
        )),
    ...(tried === undefined ? [] : hangingLines('  Last try   ', `${triedWords(tried)} from the target`)),
    ...(factors === undefined ? [] : hangingLines('  Correction ', factors.join(', '))),
    ...(refusal === undefined ? [] : ['', ...hangingLines('  No resistor: ', `${refusal.message}. ${refusal.remedy}`)]),
    ...(document.notes.length === 0 ? [] : ['', '  Notes']),
    ...document.notes.flatMap((note) => hangingLines('  - ', note)),
    '',
    '  Cautions',
    ...document.cautions.flatMap((caution) => hangingLines('  - ', caution)),
    '',
  ].join('\n');
}

/** `evendial mix`: currents and resistors of a mix of two or three LEDs. @returns the exit code @rule LA17 */
export async function runMix(words: readonly string[], shell: Shell): Promise<number> {
  const given = readArguments(words, rules);
  const { request, notes } = await readMix(given, shell);
  const advice = adviseMix(request);
  const document: MixDocument = { ...advice, notes: [...notes, ...advice.notes] };
  await shell.print(given.flags.has('json') ? jsonText(document) : textOf(document));
  return document.refusal === undefined ? 0 : exitCodeOf.refusal;
}
