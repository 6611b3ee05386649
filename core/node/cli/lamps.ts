import path from 'node:path';
import { forecastFamily } from '../../advice/families/forecast';
import { filamentFamily, lampFamilies, referenceFilamentK, type LampFamily } from '../../advice/families/lamp-families';
import { spectrumFromText } from '../../advice/families/spectrum-text';
import type { FamilyEntry, LampsDocument } from '../../contract/lamp-advice';
import { planckSpectrum } from '../../colour/spectra';
import { printable } from '../../display/figure-text';
import { readArguments, usageError } from './arguments';
import { readNamedFile } from './reading-file';
import { jsonText } from './rounded';
import { readFilament, readGrounds, readPigments } from './scale-options';
import type { Shell } from './shell';

const rules = { command: 'lamps', values: ['pigment', 'dye', 'filament', 'spectrum'], flags: ['json'] };

async function ownFamily(file: string, shell: Shell): Promise<LampFamily> {
  const spectrum = spectrumFromText(await readNamedFile('spectrum', file, shell), printable(file));
  return { name: printable(path.basename(file)), members: [spectrum] };
}

/** Words without what the heading says already. */
const shortWords = (words: string): string => words.replace(/ (than|as) with the filament$/, '');

function lineOf({ name, index, low, high, uPrime, vPrime, words }: FamilyEntry): string {
  const range = `${low.toFixed(0)} to ${high.toFixed(0)}`;
  const tint = `${uPrime.toFixed(3)}  ${vPrime.toFixed(3)}`;
  return `  ${name.padEnd(38)}${index.toFixed(0).padStart(4)}  ${range.padEnd(12)}${tint}  ${shortWords(words)}`;
}

function textOf(families: readonly FamilyEntry[], filamentK: number): string {
  return [
    `Red print in % of its redness behind a filament lamp of ${filamentK} K: usual, and range over prints,`,
    'scales and lots of lamps',
    '',
    `  ${'lamp'.padEnd(38)} red  range       u'     v'     in words`,
    ...families.map(lineOf),
    '',
    "Reckoned from model spectra, not measured: a photo of the lamp behind your scale says more. u'v' is",
    'the tint of the glow. Red print that is lost still shows as dark print, unless the light is red too.',
    'Two colours mixed are taken as tuned to a filament of 2100 to 2800 K; more red shows redder print.',
    '',
  ].join('\n');
}

/** `evendial lamps`: red print and tint of the kinds of lamps, before anything is bought. @returns the exit code @rule LF5 */
export async function runLamps(words: readonly string[], shell: Shell): Promise<number> {
  const { values, flags, files } = readArguments(words, rules);
  if (files.length > 0) throw usageError(`lamps takes no ${JSON.stringify(files[0])}`, "See 'evendial help lamps'.");
  const filamentK = readFilament(values.get('filament'));
  const scale = {
    pigments: readPigments(values.get('pigment')),
    grounds: await readGrounds(values.get('dye'), filamentK, shell),
    filament: planckSpectrum(filamentK),
  };
  const spectrum = values.get('spectrum');
  const families = [
    ...(spectrum === undefined ? [] : [await ownFamily(spectrum, shell)]),
    ...([referenceFilamentK, 2700].includes(filamentK) ? [] : [filamentFamily(filamentK)]),
    ...lampFamilies(),
  ].map((family) => forecastFamily(family, scale));
  const document: LampsDocument = { format: 'evendial-lamps', version: 1, families };
  await shell.print(flags.has('json') ? jsonText(document) : textOf(families, filamentK));
  return 0;
}
