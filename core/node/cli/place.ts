import path from 'node:path';
import { assumedSizeCaution } from '../../advice/assumed-size';
import { halvedMap } from '../../advice/measured-map';
import { fittedLamps, lampsMeant, lampsOf, movesOf } from '../../advice/place/advise-place';
import { bestPlace, forecastMove, together } from '../../advice/place/forecast-move';
import { addLamps, bestCurrents } from '../../advice/single-lamps/add-lamps';
import { AppError } from '../../base/errors';
import { missing, type Figure } from '../../contract/figure';
import type { PlaceDocument } from '../../contract/place-advice';
import type { ErrorEntry } from '../../contract/readings';
import { hatched, printable, shortFigure } from '../../display/figure-text';
import { predictedCsv } from '../map-files/map-csv';
import { mapNames } from '../map-files/map-names';
import { exitCodeOf } from './exit-codes';
import { readMappedReading } from './mapped-reading';
import { readPlaceOptions, type PlaceOptions } from './place-options';
import { jsonText } from './rounded';
import type { Shell } from './shell';
import { writeWholeFile } from './whole-files';
import { hangingLines } from './wrap';

const cautions = [
  'Unplug the unit and let it stand before you open it; keep bare leads off the metal of the box.',
  'Leave room for the body of the lamp, and check that nothing touches the scale or a pointer.',
];

type Part = Omit<PlaceDocument, 'format' | 'version'>;

async function ofModel(
  source: Extract<PlaceOptions['source'], { kind: 'model' }>,
  write: (name: string, csv: string) => Promise<string | null>,
  shell: Shell,
): Promise<Part> {
  const reading = await readMappedReading('reading', source.reading, shell);
  const { score } = reading;
  const allCautions = reading.isSizeKnown ? cautions : [assumedSizeCaution, ...cautions];
  const refused = (refusal: ErrorEntry): Part => ({
    evennessNow: score,
    fit: null,
    predicted: null,
    cautions: allCautions,
    refusal,
  });
  const found = lampsOf(reading);
  if ('refusal' in found) return refused(found.refusal);
  const { map, fit } = found;
  const moved = lampsMeant(fit, source.lamp);
  if (moved.length === 0) {
    return refused({ code: 'LAMP_UNKNOWN', message: 'the light shows one lamp only', remedy: 'Leave --lamp out.' });
  }
  const { want } = source;
  try {
    const moves =
      want.kind === 'move'
        ? movesOf(fit, moved, want.byMm, want.tiltDeg)
        : together(moved, bestPlace(map, fit, moved, want.limits));
    const { evenness, light } = forecastMove(map, fit, moves, score);
    const lamps = fittedLamps(fit);
    const { positionMm } = lamps[source.lamp === 'all' ? 0 : source.lamp - 1];
    const { byMm } = moves[0];
    const [x, y, z] = positionMm.map((value, axis) => value + byMm[axis]);
    return {
      evennessNow: score,
      fit: { rmsPercent: 100 * fit.rms, lamps },
      predicted: { evenness, map: await write(reading.name, predictedCsv(light, map.pxPerMm, map)) },
      cautions: allCautions,
      ...(want.kind === 'search' ? { best: { positionMm: [x, y, z] as const, byMm, evenness } } : {}),
    };
  } catch (error) {
    return refused(refusalOf(error));
  }
}

/** What the user can mend; anything else is thrown on. */
function refusalOf(error: unknown): ErrorEntry {
  if (!(error instanceof AppError) || error.kind !== 'refusal') throw error;
  const { code, message, remedy } = error;
  return { code, message, remedy };
}

async function ofSingles(
  source: Extract<PlaceOptions['source'], { kind: 'single' }>,
  write: (name: string, csv: string) => Promise<string | null>,
  shell: Shell,
): Promise<Part> {
  const lamps = [];
  for (const reading of source.readings) lamps.push(await readMappedReading('single-lamp', reading, shell));
  try {
    const now = addLamps(
      lamps,
      lamps.map(() => 1),
    );
    const best = bestCurrents(lamps);
    const shown = source.ratios === null ? best : addLamps(lamps, source.ratios);
    const half = halvedMap(lamps[0].map);
    const map = await write(lamps.map(({ name }) => name).join(' and '), predictedCsv(shown.light, half.pxPerMm, half));
    return {
      evennessNow: now.evenness,
      fit: null,
      predicted: { evenness: shown.evenness, map },
      cautions,
      singleLamps: {
        names: lamps.map(({ name }) => name),
        ratios: shown.ratios,
        bestRatios: best.ratioFigures,
        bestEvenness: best.evenness,
      },
    };
  } catch (error) {
    const refusal = refusalOf(error);
    return { evennessNow: missing(refusal.message), fit: null, predicted: null, cautions, refusal };
  }
}

const places = (values: readonly number[]): string => values.map((value) => value.toFixed(1)).join(', ');

type SingleLamps = NonNullable<PlaceDocument['singleLamps']>;

/** The best current over that of the photo. The first lamp's is kept; that of another may be, where its range holds 1. */
function bestText({ value, plusMinus }: Figure): string {
  if (value === null || plusMinus === null) return hatched;
  if (plusMinus === 0) return 'unchanged';
  const factor = `x ${shortFigure({ value, plusMinus })}`;
  return Math.abs(value - 1) <= plusMinus ? `may stay (${factor})` : factor;
}

/** Whether the currents that are shown are the best: none were asked for. */
const areBest = ({ ratios, bestRatios }: SingleLamps): boolean =>
  ratios.every((ratio, i) => ratio === bestRatios[i].value);

/** Each lamp's current; the best beside it where other currents were asked for. */
function currentLines(lamps: SingleLamps): string[] {
  const { names, ratios, bestRatios } = lamps;
  return names.map((name, i) => {
    const best = bestText(bestRatios[i]);
    const asked = ratios[i] === 1 ? 'unchanged' : `x ${ratios[i].toFixed(2)}`;
    return `  ${printable(name).slice(0, 26).padEnd(26)} current ${areBest(lamps) ? best : `${asked}; best ${best}`}`;
  });
}

function textOf({ evennessNow, fit, predicted, best, singleLamps, refusal, ...rest }: PlaceDocument): string {
  const lampLines = fit?.lamps.map(
    ({ number, positionMm, plusMinusMm }) =>
      `  Lamp ${number}             at ${places(positionMm)} mm, give or take ${places(plusMinusMm)}`,
  );
  return [
    `  Evenness now       ${shortFigure(evennessNow)}`,
    ...(lampLines ?? []),
    ...(singleLamps ? currentLines(singleLamps) : []),
    ...(best ? [`  Best place         ${places(best.positionMm)} mm: by ${places(best.byMm)} mm`] : []),
    ...(predicted ? [`  Evenness then      ${shortFigure(predicted.evenness)}`] : []),
    ...(singleLamps && !areBest(singleLamps) ? [`  At the best        ${shortFigure(singleLamps.bestEvenness)}`] : []),
    ...(predicted?.map ? [`  Written            ${printable(predicted.map)}`] : []),
    ...(refusal ? ['', ...hangingLines('  Refused: ', `${refusal.message}. ${refusal.remedy}`)] : []),
    '',
    '  Cautions',
    ...rest.cautions.flatMap((caution) => hangingLines('  - ', caution)),
    '',
  ].join('\n');
}

/** `evendial place`: what moving, turning or dimming a lamp would do. @returns the exit code @rule PL6 */
export async function runPlace(words: readonly string[], shell: Shell): Promise<number> {
  const { source, mapsFolder, json } = readPlaceOptions(words);
  const write = async (name: string, csv: string): Promise<string | null> => {
    if (mapsFolder === null) return null;
    const file = path.join(mapsFolder, `${mapNames([{ name, window: 'window' }])[0]}.predicted-luminance.csv`);
    await writeWholeFile(path.resolve(shell.folder, file), csv, shell.signal);
    return file.split(path.sep).join('/');
  };
  const part = source.kind === 'model' ? await ofModel(source, write, shell) : await ofSingles(source, write, shell);
  const document: PlaceDocument = { format: 'evendial-place', version: 1, ...part };
  await shell.print(json ? jsonText(document) : textOf(document));
  return part.refusal === undefined ? 0 : exitCodeOf.refusal;
}
