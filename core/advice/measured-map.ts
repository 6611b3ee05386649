import { AppError } from '../base/errors';
import { thinPlateFilled } from '../base/thin-plate';
import { createMask, createPlane, type Mask, type Plane } from '../base/plane';
import type { Figure } from '../contract/figure';
import { scoreEvenness } from '../reading/evenness';
import {
  coverageFactor,
  exponentSpread,
  mostLensPoints,
  responseDoubts,
  toneCurvePoints,
} from '../reading/uncertainty';
import { fillMasked } from '../window/fill';
import { borderMm } from '../window/outline';

/** The measured light of a window, as advice works with it. Cell (i, j) covers [i/p, (i+1)/p) x [j/p, (j+1)/p) mm. */
export interface MeasuredMap {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly pxPerMm: number;
  /** Relative luminance; print and rim are filled in from their surroundings, so every cell has a value above 0. */
  readonly light: Plane;
  /** Cells that were measured and count for the score. */
  readonly glow: Mask;
  /** The exposure was known, so that the light of several maps is in one unit. */
  readonly isExposureNormalised: boolean;
}

/** Nobody's window is larger; a file that says so is damaged. */
const mostCells = 4_000_000;

function invalid(called: string, what: string): AppError {
  const remedy = "Write the maps again with 'evendial measure ... --maps DIR --json'.";
  return new AppError('usage', 'MAP_INVALID', `${called}: ${what}`, remedy);
}

/** The numbers of the first line: `# format=evendial-map version=1 px_per_mm=4 width_mm=92 ...`. */
function headOf(
  line: string,
  called: string,
): Pick<MeasuredMap, 'pxPerMm' | 'widthMm' | 'heightMm' | 'isExposureNormalised'> {
  const facts = new Map([...line.matchAll(/(\w+)=(\S+)/g)].map(([, key, value]) => [key, value]));
  if (!line.startsWith('#') || facts.get('format') !== 'evendial-map')
    throw invalid(called, 'line 1 is not that of a map');
  if (facts.get('version') !== '1') throw invalid(called, `version ${facts.get('version') ?? 'none'} is not known`);
  if (facts.get('unit') !== 'relative') throw invalid(called, `unit ${facts.get('unit') ?? 'none'} is not luminance`);
  const [pxPerMm, widthMm, heightMm] = ['px_per_mm', 'width_mm', 'height_mm'].map((key) => {
    const value = Number(facts.get(key));
    if (!(value > 0)) throw invalid(called, `${key} is ${facts.get(key) ?? 'missing'}`);
    return value;
  });
  return { pxPerMm, widthMm, heightMm, isExposureNormalised: facts.get('exposure_normalised') === '1' };
}

/** What is filled in is brighter or darker than all that was seen by this at most, ln: a plate bends on beyond its edge. */
const mostBeyond = 0.2;

/** The light with print and rim filled in: what is bright around a mark is brighter still under it where the light rises to it. */
function lightUnderPrint(measured: Plane, glow: Mask, pxPerMm: number): Plane {
  const { width, height } = measured;
  const all = createMask(width, height, 1);
  const guess = fillMasked(measured, createMask(width, height), pxPerMm, all);
  const open = { ...glow, values: glow.values.map((isLit) => 1 - isLit) };
  const logLight = thinPlateFilled({ ...guess, values: guess.values.map(Math.log) }, open);
  let [darkest, brightest] = [Infinity, -Infinity];
  logLight.values.forEach((value, i) => {
    if (open.values[i]) return;
    [darkest, brightest] = [Math.min(darkest, value), Math.max(brightest, value)];
  });
  const within = (value: number): number => Math.min(Math.max(value, darkest - mostBeyond), brightest + mostBeyond);
  const values = guess.values.map((value, i) => (open.values[i] ? Math.exp(within(logLight.values[i])) : value));
  return { ...guess, values };
}

/** Puts a map's cells together with the light under print and rim filled in. */
export function measuredMap(
  measured: Plane,
  pxPerMm: number,
  widthMm: number,
  heightMm: number,
  isExposureNormalised = true,
): MeasuredMap {
  const { width, height, values } = measured;
  const glow = createMask(width, height);
  for (let i = 0; i < values.length; i++) if (values[i] > 0) glow.values[i] = 1;
  if (!glow.values.includes(1)) {
    throw new AppError('refusal', 'MAP_EMPTY', 'the map has no lit cell', 'Measure a photo with the lamps on.');
  }
  const light = lightUnderPrint(measured, glow, pxPerMm);
  return { widthMm, heightMm, pxPerMm, light, glow, isExposureNormalised };
}

/**
 * The map of a `NAME.glow-luminance.csv`.
 *
 * @param called how the file is told of
 * @throws AppError MAP_INVALID with the line, MAP_EMPTY
 * @source the format is our own, MP2
 * @rule AV1
 */
export function mapFromText(text: string, called: string): MeasuredMap {
  const [first, ...rows] = text.replace(/\r?\n$/, '').split(/\r?\n/);
  const { pxPerMm, widthMm, heightMm, isExposureNormalised } = headOf(first, called);
  const [width, height] = [Math.ceil(pxPerMm * widthMm - 1e-9), Math.ceil(pxPerMm * heightMm - 1e-9)];
  if (width * height > mostCells) throw invalid(called, `${width} x ${height} cells are too many`);
  if (rows.length !== height) throw invalid(called, `${rows.length} rows, not ${height}`);
  const plane = createPlane(width, height, NaN);
  rows.forEach((row, y) => {
    const cells = row.split(',');
    if (cells.length !== width) throw invalid(called, `line ${y + 2} has ${cells.length} cells, not ${width}`);
    cells.forEach((cell, x) => {
      if (cell.trim() === '') return;
      const value = Number(cell);
      if (!Number.isFinite(value)) throw invalid(called, `line ${y + 2}: ${JSON.stringify(cell)} is no number`);
      plane.values[y * width + x] = value;
    });
  });
  return measuredMap(plane, pxPerMm, widthMm, heightMm, isExposureNormalised);
}

/** The same map with cells twice as wide; a cell counts where all that it is made of do. */
export function halvedMap(map: MeasuredMap): MeasuredMap {
  const [width, height] = [Math.ceil(map.light.width / 2), Math.ceil(map.light.height / 2)];
  const light = createPlane(width, height);
  const glow = createMask(width, height);
  for (let i = 0; i < light.values.length; i++) {
    const [x, y] = [2 * (i % width), 2 * Math.floor(i / width)];
    let [sum, count, lit] = [0, 0, 0];
    for (let row = y; row < Math.min(y + 2, map.light.height); row++) {
      for (let column = x; column < Math.min(x + 2, map.light.width); column++) {
        sum += map.light.values[row * map.light.width + column];
        lit += map.glow.values[row * map.light.width + column];
        count += 1;
      }
    }
    light.values[i] = sum / count;
    glow.values[i] = lit === count ? 1 : 0;
  }
  return { ...map, pxPerMm: map.pxPerMm / 2, light, glow };
}

/** A usual place to sit before a tuner; 300 to 1000 mm move the score by 0.7 point at most. */
const viewingDistanceMm = 500;

/**
 * The evenness score that other light would have in a map's place.
 *
 * @param light on the map's grid, above 0; not altered
 * @returns 0..100
 * @source EV1
 * @rule AV1
 */
export function scoreOfLight(map: MeasuredMap, light: Plane): number {
  const options = { pxPerMm: map.pxPerMm, borderMm: borderMm(map.widthMm, map.heightMm), viewingDistanceMm };
  return scoreEvenness(light, map.glow, options).score;
}

/** Mean of light over the glow of a map with as many cells. */
export const meanOnGlow = ({ glow }: MeasuredMap, { values }: Plane): number =>
  values.reduce((sum, value, i) => sum + glow.values[i] * value, 0) /
  glow.values.reduce((sum, value) => sum + value, 0);

/** The light raised to a power: what a wrong tone curve of the camera amounts to. */
export function bentLight(light: Plane, exponent: number): Plane {
  return { ...light, values: light.values.map((value) => Math.pow(value, exponent)) };
}

/** What a reading leaves open beside its lens, as advice carries it on; k = 1. */
export interface CarriedDoubt {
  /** Of the tone curve: the light may be bent by an exponent of 1 +- this. */
  readonly bend: number;
  /** Room light, print, clipping, noise: points of the score. */
  readonly points: number;
}

/**
 * The plus-minus of a score in parts. A reading tells their sum only: as much of it as a doubt of UN2 explains is the tone curve's;
 * of the rest up to 2 points are the lens's, which is carried on as the light that it takes away (`pointsOfDoubt`).
 *
 * @param score of the reading, 0..100; without a value: an unknown curve
 * @source UN1 and UN2, read backwards; the largest doubt that fits: our own choice
 * @rule AV2
 */
export function doubtOf({ value, plusMinus }: Figure): CarriedDoubt {
  if (value === null || plusMinus === null) return { bend: exponentSpread, points: 0 };
  const uncertainty = plusMinus / coverageFactor;
  const ofCurve = toneCurvePoints(value);
  const doubt = responseDoubts.find((one) => one * ofCurve <= uncertainty)!;
  const rest = uncertainty ** 2 - (doubt * ofCurve) ** 2;
  return { bend: doubt * exponentSpread, points: Math.sqrt(Math.max(0, rest - mostLensPoints ** 2)) };
}

/** Light that the lens may have taken at the ends of the window, k = 1. @source UN3 */
const lensShare = 0.02;

function darkenedEnds({ width, height, values }: Plane, share: number): Plane {
  const at = (i: number, length: number): number => ((2 * i + 1) / length - 1) ** 2;
  const ends = (i: number): number => Math.max(at(i % width, width), at(Math.floor(i / width), height));
  return { width, height, values: values.map((value, i) => value * (1 - share * ends(i))) };
}

/** The farther of two scores, of light changed one way and the other. */
function mostMoved(map: MeasuredMap, light: Plane, change: (way: -1 | 1) => Plane): number {
  const score = scoreOfLight(map, light);
  return Math.max(...([-1, 1] as const).map((way) => Math.abs(scoreOfLight(map, change(way)) - score)));
}

/**
 * What the lens leaves open of a forecast's score, points, k = 1: the ends of its light darkened or lightened. The part of AV2
 * that a forecast which bends its light in its own way has to add.
 *
 * @source UN3
 * @rule AV2
 */
export function lensPoints(map: MeasuredMap, light: Plane): number {
  return mostMoved(map, light, (way) => darkenedEnds(light, way * lensShare));
}

/**
 * What of a reading's doubts moves the score of light that is forecast from it, points, k = 1: the light bent by the tone curve's
 * doubt, its ends darkened or lightened by the lens's, and the rest in points.
 *
 * @source JCGM 100, by differences
 * @rule AV2
 */
export function pointsOfDoubt(map: MeasuredMap, light: Plane, { bend, points }: CarriedDoubt): number {
  const ofCurve = mostMoved(map, light, (way) => bentLight(light, 1 + way * bend));
  return Math.hypot(points, ofCurve, lensPoints(map, light));
}
