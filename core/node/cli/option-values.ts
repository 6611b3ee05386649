import type { Corners, PhotoPoint } from '../../base/points';
import type { StatedExposure } from '../../contract/measure';
import { statedLimits } from '../../contract/series';
import { cornersOfRim } from '../../window/rim-ellipse';
import { nearestWord, usageError } from './arguments';

const decimal = /^[+-]?(\d+(\.\d*)?|\.\d+)(e[+-]?\d+)?$/i;

/** A number as people type it (decimal point, optional exponent), or null: never a guess. */
export function numberOf(text: string): number | null {
  const value = decimal.test(text) ? Number(text) : NaN;
  return Number.isFinite(value) ? value : null;
}

const cornerNames = ['top-left', 'top-right', 'bottom-right', 'bottom-left'] as const;
const cornersForm = '--corners "x,y x,y x,y x,y": top-left, top-right, bottom-right, bottom-left, in pixels.';

const rimForm = '--rim "x,y x,y x,y x,y x,y": 5 or more points on the rim of a round face, in pixels.';

/** How an option with points is told about: its name, the names of its points, what it looks like, its code. */
interface PointsOption {
  readonly name: string;
  readonly pointNames: readonly string[];
  readonly form: string;
  readonly code: string;
}

function pointOf(text: string, index: number, { name, pointNames, form, code }: PointsOption): PhotoPoint {
  const named = index < pointNames.length ? ` (${pointNames[index]})` : '';
  const where = `--${name}: point ${index + 1}${named}`;
  const parts = text.split(',');
  if (parts.length === 2 && parts[0] !== '' && parts[1] === '') {
    const message = `${where} is ${JSON.stringify(text)}, not x,y`;
    throw usageError(message, 'Write x,y without a space after the comma, and a space between points.', code);
  }
  if (parts.length !== 2) throw usageError(`${where} is ${JSON.stringify(text)}, not x,y`, form, code);
  const [column, row] = parts.map((part, axis) => {
    const value = numberOf(part);
    if (value === null) {
      throw usageError(`${where}: ${'xy'[axis]} is ${JSON.stringify(part)}, not a number`, form, code);
    }
    return value;
  });
  return { column, row };
}

const wordsOf = (text: string): string[] =>
  text
    .trim()
    .split(/[\s;]+/)
    .filter((part) => part !== '');

/**
 * The four corners of `--corners "x,y x,y x,y x,y"`, in pixels of the upright photo.
 *
 * @throws AppError CORNERS_INVALID  with the place of the bad number
 * @rule CL2
 */
export function readCorners(
  text: string,
  name: 'corners' | 'reference-corners' | 'print-photo-corners' = 'corners',
): Corners {
  const option = { name, pointNames: cornerNames, form: cornersForm, code: 'CORNERS_INVALID' };
  const words = wordsOf(text);
  const points = words.slice(0, 4).map((word, index) => pointOf(word, index, option));
  if (words.length !== 4) {
    throw usageError(`--${name} has ${words.length} points, not 4`, cornersForm, 'CORNERS_INVALID');
  }
  const [topLeft, topRight, bottomRight, bottomLeft] = points;
  return [topLeft, topRight, bottomRight, bottomLeft];
}

/**
 * The corners of the box about a round face, from the points of `--rim "x,y x,y x,y x,y x,y"` on its rim.
 *
 * @throws AppError RIM_INVALID  with the place of the bad number; else as `cornersOfRim`
 * @rule CL2, WN19
 */
export function readRim(text: string): Corners {
  const option = { name: 'rim', pointNames: [], form: rimForm, code: 'RIM_INVALID' };
  return cornersOfRim(wordsOf(text).map((word, index) => pointOf(word, index, option)));
}

/** Width and height of `--size 92x18`, in mm. @throws AppError SIZE_INVALID @rule CL2 */
export function readSize(text: string): { widthMm: number; heightMm: number } {
  const remedy = '--size 92x18: width and height of the window in mm, each 2 to 1000.';
  const parts = text
    .trim()
    .replace(/\s*mm$/i, '')
    .split(/\s*[x×]\s*/i);
  const [widthMm, heightMm] = parts.map(numberOf);
  if (parts.some((part) => /^\d+,\d+$/.test(part))) {
    const message = `--size is ${JSON.stringify(text)}: write a decimal point, not a comma`;
    throw usageError(message, remedy, 'SIZE_INVALID');
  }
  if (parts.length !== 2 || widthMm === null || heightMm === null) {
    throw usageError(`--size is ${JSON.stringify(text)}, not WIDTHxHEIGHT`, remedy, 'SIZE_INVALID');
  }
  const [low, high] = statedLimits.sizeMm;
  for (const [what, value] of [
    ['width', widthMm],
    ['height', heightMm],
  ] as const) {
    if (value < low || value > high) throw usageError(`--size: the ${what} is ${value} mm`, remedy, 'SIZE_INVALID');
  }
  return { widthMm, heightMm };
}

const exposureForm =
  '--exposure "1/30 f/4 iso400": time in seconds, f-number and ISO, in any order; any may be left out.';

function exposureError(message: string): Error {
  return usageError(`--exposure: ${message}`, exposureForm, 'EXPOSURE_INVALID');
}

function secondsOf(token: string): number | null {
  const parts = token.replace(/s$/i, '').split('/').map(numberOf);
  if (parts.length === 1) return parts[0];
  const [above, below] = parts;
  return parts.length === 2 && above !== null && below !== null && below !== 0 ? above / below : null;
}

function partOf(token: string): { key: keyof StatedExposure; value: number | null } {
  if (/^f/i.test(token)) return { key: 'fNumber', value: numberOf(token.replace(/^f\/?/i, '')) };
  if (/^iso/i.test(token)) return { key: 'iso', value: numberOf(token.slice(3)) };
  return { key: 'exposureS', value: secondsOf(token) };
}

/**
 * Time in s, f-number and ISO of `--exposure`, any subset in any order.
 *
 * @throws AppError EXPOSURE_INVALID  with the part that is wrong
 * @rule CL2
 */
export function readExposure(text: string): StatedExposure {
  const tokens = text
    .trim()
    .replace(/iso\s+/gi, 'iso')
    .split(/[\s,]+/)
    .filter((token) => token !== '');
  if (tokens.length === 0) throw exposureError('is empty');
  const exposure: { -readonly [key in keyof StatedExposure]: StatedExposure[key] } = {};
  const words = { exposureS: 'the time', fNumber: 'the f-number', iso: 'the ISO' };
  for (const token of tokens) {
    const { key, value } = partOf(token);
    if (value === null) throw exposureError(`${JSON.stringify(token)} is no time, f-number or ISO`);
    if (exposure[key] !== undefined) throw exposureError(`${words[key]} is given twice`);
    const [low, high] = statedLimits[key];
    if (value < low || value > high) throw exposureError(`${words[key]} is ${value}; it must be ${low} to ${high}`);
    exposure[key] = value;
  }
  return exposure;
}

/** `--viewing-distance 500`, mm. @throws AppError VIEWING_DISTANCE_INVALID @rule CL2 */
export function readViewingDistance(text: string): number {
  const [low, high] = statedLimits.viewingDistanceMm;
  const value = numberOf(text.trim().replace(/\s*mm$/i, ''));
  if (value === null || value < low || value > high) {
    const message = `--viewing-distance is ${JSON.stringify(text)}`;
    throw usageError(message, `Give the distance in mm, ${low} to ${high}.`, 'VIEWING_DISTANCE_INVALID');
  }
  return value;
}

/**
 * One word out of a list, as `--print dark`; capitals count as small letters.
 *
 * @throws AppError OPTION_VALUE  with the word that was probably meant
 * @rule CL2
 */
export function readChoice<Word extends string>(option: string, text: string, words: readonly Word[]): Word {
  const given = text.trim().toLowerCase();
  const found = words.find((word) => word === given);
  if (found !== undefined) return found;
  const near = nearestWord(given.replace(/[\s_]+/g, '-'), words);
  const meant = near === null ? '' : `Did you mean ${near}? `;
  const remedy = `${meant}Give one of: ${words.join(', ')}.`;
  throw usageError(`--${option} is ${JSON.stringify(text)}`, remedy, 'OPTION_VALUE');
}
