import path from 'node:path';
import { gapUnknown, isGainSure, noSureGain, cautionsFor, whyNoShade } from '../../advice/shade/check-shade';
import { planShade, type ShadePlan } from '../../advice/shade/plan-shade';
import { missing } from '../../contract/figure';
import type { ErrorEntry } from '../../contract/readings';
import type { ShadeDocument } from '../../contract/shade-advice';
import { printable, shortFigure } from '../../display/figure-text';
import { mountWords } from '../../display/shade-words';
import { pitchOfShade, shadeFile } from '../sheet/shade-file';
import { transmissionCsv } from '../map-files/map-csv';
import { exitCodeOf } from './exit-codes';
import { readMappedReading, type MappedReading } from './mapped-reading';
import { jsonText } from './rounded';
import { readShadeOptions, type ShadeOptions } from './shade-options';
import { versionOf, type Shell } from './shell';
import { writeWholeFile } from './whole-files';
import { hangingLines } from './wrap';

/** What is asked for when the gap is not known: the shape, as for a shade on the scale. */
const shapeGapMm = 0;

const perCent = (share: number): string => `${(100 * share).toFixed(0)} %`;

async function writeSheet(
  reading: MappedReading,
  plan: ShadePlan,
  options: ShadeOptions,
  shell: Shell,
): Promise<string> {
  const { widthMm, heightMm } = reading.map;
  const content = await shadeFile({
    name: reading.name,
    before: reading.score,
    widthMm,
    heightMm,
    isSizeKnown: reading.isSizeKnown,
    plan,
    gapMm: options.gapMm,
    style: options.style,
    isMirrored: options.isMirrored,
    form: options.kind,
    version: versionOf(shell.home),
    savedAt: new Date().toISOString(),
  });
  const out = path.resolve(shell.folder, options.out);
  const csv = `${options.out.slice(0, -path.extname(options.out).length)}.transmission.csv`;
  await writeWholeFile(out, content, shell.signal);
  const text = transmissionCsv(plan.transmission, plan.pxPerMm, { widthMm, heightMm });
  await writeWholeFile(path.resolve(shell.folder, csv), text, shell.signal);
  return csv.split(path.sep).join('/');
}

function documentOf(
  { score, isSizeKnown }: MappedReading,
  { gapMm, style }: ShadeOptions,
  plan: ShadePlan | null,
  made: { readonly pitchMm: number | null; readonly csv: string | null },
  refusal: ErrorEntry | null,
): ShadeDocument {
  const forecast = gapMm === null ? null : plan;
  const none = missing((refusal ?? gapUnknown).message);
  const document: ShadeDocument = {
    format: 'evendial-shade',
    version: 1,
    gapMm,
    style,
    pitchMm: made.pitchMm,
    evennessBefore: score,
    evennessAfter: forecast?.evennessAfter ?? none,
    worstMount: forecast?.worstMount ?? null,
    evennessOnMarks: forecast?.evennessOnMarks ?? none,
    lightLoss: plan === null ? null : Math.max(0, plan.lightLoss),
    transmissionMin: plan === null ? null : plan.transmissionMin,
    transmissionMap: made.csv,
    cautions: cautionsFor(isSizeKnown),
  };
  return refusal === null ? document : { ...document, refusal };
}

function textOf(document: ShadeDocument, options: ShadeOptions): string {
  const { evennessBefore, evennessAfter, worstMount, evennessOnMarks, lightLoss } = document;
  const { transmissionMin, transmissionMap, refusal } = document;
  return [
    `  Evenness now       ${shortFigure(evennessBefore)}`,
    `  With the shade     ${shortFigure(evennessOnMarks)}${worstMount === null ? '' : ' on its marks'}`,
    ...(worstMount === null ? [] : [`  At worst           ${shortFigure(evennessAfter)}, ${mountWords[worstMount]}`]),
    ...(lightLoss === null ? [] : [`  Light lost         ${perCent(lightLoss)}`]),
    ...(transmissionMin === null ? [] : [`  Darkest place      lets ${perCent(transmissionMin)} through`]),
    ...(transmissionMap === null
      ? []
      : [`  Written            ${printable(options.out)}, ${printable(transmissionMap)}`]),
    ...(refusal === undefined ? [] : ['', ...hangingLines('  Refused: ', `${refusal.message}. ${refusal.remedy}`)]),
    '',
    '  Cautions',
    ...document.cautions.flatMap((caution) => hangingLines('  - ', caution)),
    '',
  ].join('\n');
}

/** `evendial shade`: a printable shade that makes the glow even. @returns the exit code @rule AV9 */
export async function runShade(words: readonly string[], shell: Shell): Promise<number> {
  const options = readShadeOptions(words);
  const reading = await readMappedReading('reading', options.reading, shell);
  let refusal = whyNoShade(reading.score, options.gapMm, options.style);
  let plan: ShadePlan | null = null;
  if (refusal === null) {
    shell.progress('working the shade out');
    const { gapMm, targetPercent, style } = options;
    plan = planShade(reading.map, { gapMm: gapMm ?? shapeGapMm, targetPercent, style }, reading.score);
    shell.progress('');
    if (gapMm === null) refusal = gapUnknown;
    else if (!isGainSure(reading.score, plan.evennessAfter)) refusal = noSureGain;
  }
  const isMade = plan !== null && (refusal === null || refusal === gapUnknown);
  const csv = isMade && plan !== null ? await writeSheet(reading, plan, options, shell) : null;
  const document = documentOf(reading, options, plan, { csv, pitchMm: isMade ? pitchOfShade(options) : null }, refusal);
  await shell.print(options.json ? jsonText(document) : textOf(document, options));
  return refusal === null ? 0 : exitCodeOf.refusal;
}
