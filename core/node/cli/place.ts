import path from 'node:path';
import { halvedMap } from '../../advice/measured-map';
import { findLamps, type LampFit } from '../../advice/place/fit-lamps';
import { bestPlace, forecastMove, type LampMove } from '../../advice/place/forecast-move';
import { addLamps, bestCurrents } from '../../advice/single-lamps/add-lamps';
import { AppError } from '../../base/errors';
import { cosDeg, directionDeg, sinDeg } from '../../colour/deterministic-angle';
import { missing } from '../../contract/figure';
import type { FittedLamp, PlaceDocument } from '../../contract/place-advice';
import { printable, shortFigure } from '../../display/figure-text';
import { coverageFactor } from '../../reading/uncertainty';
import { predictedCsv } from '../map-files/map-csv';
import { mapNames } from '../map-files/map-names';
import { exitCodeOf } from './exit-codes';
import { readMappedReading } from './mapped-reading';
import { readPlaceOptions, type PlaceOptions, type PlaceWish } from './place-options';
import { jsonText } from './rounded';
import type { Shell } from './shell';
import { writeWholeFile } from './whole-files';
import { hangingLines } from './wrap';

const cautions = [
  'Unplug the unit and let it stand before you open it; keep bare leads off the metal of the box.',
  'Leave room for the body of the lamp, and check that nothing touches the scale or a pointer.',
];

type Part = Omit<PlaceDocument, 'format' | 'version' | 'cautions'>;

/** Signed angle of a tangent, -90..90. */
const angleOf = (slope: number): number => {
  const direction = directionDeg(slope, 1);
  return direction > 180 ? direction - 360 : direction;
};

/** Which of the fitted lamps comes first from the left. */
const fromLeft = ({ model }: LampFit): number[] =>
  model.lamps.map((_, i) => i).sort((a, b) => model.lamps[a].xMm - model.lamps[b].xMm);

function lampEntries(fit: LampFit): FittedLamp[] {
  return fromLeft(fit).map((index, i) => {
    const { xMm, yMm, depthMm, lobe, slopes } = fit.model.lamps[index];
    const u = fit.uncertainties[index];
    return {
      number: i + 1,
      positionMm: [xMm, yMm, depthMm],
      plusMinusMm: [coverageFactor * u.xMm, coverageFactor * u.yMm, coverageFactor * u.lnDepth * depthMm],
      tiltDeg: [angleOf(slopes[0]), angleOf(slopes[1])],
      lobe,
    };
  });
}

/** The change of a tangent when its angle grows by so many degrees. */
function slopeChange(slope: number, byDeg: number): number {
  const by = sinDeg(byDeg) / cosDeg(byDeg);
  return (slope + by) / Math.max(0.05, 1 - slope * by) - slope;
}

function moveOf(want: Extract<PlaceWish, { kind: 'move' }>, fit: LampFit, lamp: number): LampMove {
  const { slopes } = fit.model.lamps[lamp];
  const [right, down] = want.tiltDeg;
  return { lamp, byMm: want.byMm, bySlopes: [slopeChange(slopes[0], right), slopeChange(slopes[1], down)] };
}

/** From here on there is nothing to gain. */
const evenEnough = 95;

async function ofModel(
  source: Extract<PlaceOptions['source'], { kind: 'model' }>,
  write: (name: string, csv: string) => Promise<string | null>,
  shell: Shell,
): Promise<Part> {
  const reading = await readMappedReading('reading', source.reading, shell);
  const { score, spots } = reading;
  const refused = (code: string, message: string, remedy: string): Part => ({
    evennessNow: score,
    fit: null,
    predicted: null,
    refusal: { code, message, remedy },
  });
  if (score.value === null) {
    return refused('PLACE_WITHOUT_SCORE', `no evenness score: ${score.reason ?? ''}`, 'Take the photo again.');
  }
  if (score.value > evenEnough) {
    return refused('NOTHING_TO_GAIN', 'the glow is even to a careful eye', 'Leave the lamps where they are.');
  }
  const map = halvedMap(reading.map);
  const found = findLamps(map, spots.filter(({ kind }) => kind === 'hot').length);
  if ('refusal' in found) return { evennessNow: score, fit: null, predicted: null, refusal: found.refusal };
  const { fit } = found;
  const index = fromLeft(fit).at(source.lamp - 1);
  if (index === undefined) return refused('LAMP_UNKNOWN', 'the light shows one lamp only', 'Leave --lamp out.');
  const { want } = source;
  const move = want.kind === 'move' ? moveOf(want, fit, index) : bestPlace(map, fit, index, want.limits);
  const { evenness, light } = forecastMove(map, fit, move, score);
  const lamps = lampEntries(fit);
  const [x, y, z] = lamps[source.lamp - 1].positionMm.map((value, axis) => value + move.byMm[axis]);
  return {
    evennessNow: score,
    fit: { rmsPercent: 100 * fit.rms, lamps },
    predicted: { evenness, map: await write(reading.name, predictedCsv(light, map.pxPerMm, map)) },
    ...(want.kind === 'search' ? { best: { positionMm: [x, y, z] as const, evenness } } : {}),
  };
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
      singleLamps: {
        names: lamps.map(({ name }) => name),
        ratios: shown.ratios,
        bestRatios: best.ratioFigures,
        bestEvenness: best.evenness,
      },
    };
  } catch (error) {
    if (!(error instanceof AppError) || error.kind !== 'refusal') throw error;
    const { code, message, remedy } = error;
    return { evennessNow: missing(message), fit: null, predicted: null, refusal: { code, message, remedy } };
  }
}

const places = (values: readonly number[]): string => values.map((value) => value.toFixed(1)).join(', ');

function textOf({ evennessNow, fit, predicted, best, singleLamps, refusal, ...rest }: PlaceDocument): string {
  const lampLines = fit?.lamps.map(
    ({ number, positionMm, plusMinusMm }) =>
      `  Lamp ${number}             at ${places(positionMm)} mm, give or take ${places(plusMinusMm)}`,
  );
  const ratioLines = singleLamps?.names.map(
    (name, i) =>
      `  ${printable(name).slice(0, 26).padEnd(26)} current x ${singleLamps.ratios[i].toFixed(2)}; best x ${shortFigure(singleLamps.bestRatios[i])}`,
  );
  return [
    `  Evenness now       ${shortFigure(evennessNow)}`,
    ...(lampLines ?? []),
    ...(ratioLines ?? []),
    ...(best ? [`  Best place         ${places(best.positionMm)} mm`] : []),
    ...(predicted ? [`  Evenness then      ${shortFigure(predicted.evenness)}`] : []),
    ...(singleLamps ? [`  At the best        ${shortFigure(singleLamps.bestEvenness)}`] : []),
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
  const document: PlaceDocument = { format: 'evendial-place', version: 1, ...part, cautions };
  await shell.print(json ? jsonText(document) : textOf(document));
  return part.refusal === undefined ? 0 : exitCodeOf.refusal;
}
