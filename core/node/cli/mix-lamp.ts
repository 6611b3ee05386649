import type { Led, LedColour, LedLight } from '../../advice/led';
import { spectrumFromText } from '../../advice/families/spectrum-text';
import { whiteE, type Chromaticity } from '../../colour/constants';
import { dominantWavelengthOf } from '../../colour/dominant-wavelength';
import { printable } from '../../display/figure-text';
import { nearestWord, usageError } from './arguments';
import { numberOf } from './option-values';

/** Numbers of a lamp, with their limits. */
const numberKeys: Readonly<Record<string, readonly [number, number]>> = {
  dominantNm: [400, 690],
  halfWidthNm: [5, 150],
  mcd: [0.1, 1e6],
  lm: [0.001, 1e4],
  angleDeg: [2, 175],
  atMa: [0.1, 5000],
  vf: [1, 60],
  maxMa: [0.1, 5000],
  inSeries: [1, 50],
};
const keys = ['name', 'xy', 'spectrum', ...Object.keys(numberKeys)];
const form = 'Write --lamp "name=red,dominantNm=625,mcd=800,atMa=20,angleDeg=30,vf=2.0,maxMa=20".';

function lampError(where: string, what: string, remedy = form): Error {
  return usageError(`${where}: ${what}`, remedy, 'LAMP_INVALID');
}

/** `key=value` pairs; a part without = belongs to the value before it, as in xy=0.17,0.70. */
function pairsOf(text: string, where: string): Map<string, string> {
  const pairs = new Map<string, string>();
  let last: string | null = null;
  for (const part of text.split(',')) {
    const equals = part.indexOf('=');
    if (equals < 0 && last === 'xy') pairs.set('xy', `${pairs.get('xy')},${part.trim()}`);
    if (equals < 0 && last === 'xy') continue;
    if (equals < 0) throw lampError(where, `${JSON.stringify(part)} is no key=value`);
    const key = part.slice(0, equals).trim();
    if (!keys.includes(key)) {
      const near = nearestWord(key, keys);
      throw lampError(
        where,
        `unknown ${JSON.stringify(key)}`,
        near ? `Did you mean ${near}=?` : `There are: ${keys.join(', ')}.`,
      );
    }
    if (pairs.has(key)) throw lampError(where, `${key} is given twice`);
    pairs.set(key, part.slice(equals + 1).trim());
    last = key;
  }
  return pairs;
}

/** A chromaticity `x,y` that light can have. @throws AppError with the code of the option */
export function readXy(text: string, where: string, code: string): Chromaticity {
  const [x, y] = text.split(',').map((part) => numberOf(part.trim()) ?? NaN);
  const remedy = 'Give x and y of CIE 1931, as xy=0.17,0.70.';
  const isPair = text.split(',').length === 2 && x > 0 && y > 0 && x + y < 1;
  const dominant = isPair ? dominantWavelengthOf({ x, y }, whiteE) : null;
  // Purity passes 1 by 1e-4 through the straight pieces of the locus; data sheets round to two or three digits.
  if (!isPair || (dominant !== null && dominant.purity > 1.02)) {
    throw usageError(`${where}: xy=${text} is no colour of light`, remedy, code);
  }
  return { x, y };
}

function colourOf(
  pairs: ReadonlyMap<string, string>,
  numbers: ReadonlyMap<string, number>,
  where: string,
  texts: ReadonlyMap<string, string>,
): LedColour {
  const [xy, file, dominantNm] = [pairs.get('xy'), pairs.get('spectrum'), numbers.get('dominantNm')];
  if ([xy, file, dominantNm].filter((one) => one !== undefined).length !== 1) {
    throw lampError(where, 'give one of dominantNm=, xy=, spectrum=');
  }
  if (file !== undefined)
    return { kind: 'spectrum', spectrum: spectrumFromText(texts.get(file) ?? '', printable(file)) };
  const halfWidthNm = numbers.get('halfWidthNm');
  if (xy !== undefined) return { kind: 'xy', xy: readXy(xy, where, 'LAMP_INVALID'), halfWidthNm };
  return { kind: 'dominant', dominantNm: dominantNm!, halfWidthNm };
}

function lightOf(numbers: ReadonlyMap<string, number>, where: string): LedLight | null {
  const [lm, mcd] = [numbers.get('lm'), numbers.get('mcd')];
  if (lm !== undefined && mcd !== undefined) throw lampError(where, 'give lm= or mcd=, not both');
  if (lm !== undefined) return { kind: 'lumens', lm };
  return mcd === undefined ? null : { kind: 'intensity', mcd, angleDeg: numbers.get('angleDeg') ?? null };
}

/** Files that the lamps name as spectra. */
export function spectrumFilesOf(lamps: readonly string[]): string[] {
  return lamps.flatMap((text, index) => pairsOf(text, `--lamp ${index + 1}`).get('spectrum') ?? []);
}

/**
 * A lamp as its data sheet describes it, out of one `--lamp`.
 *
 * @param texts  the texts of spectrum files, by their names
 * @throws AppError LAMP_INVALID  with the lamp and the key
 * @rule LA17
 */
export function readLamp(text: string, index: number, texts: ReadonlyMap<string, string>): Led {
  const where = `--lamp ${index + 1}`;
  const pairs = pairsOf(text, where);
  const numbers = new Map<string, number>();
  for (const [key, [low, high]] of Object.entries(numberKeys)) {
    const given = pairs.get(key);
    if (given === undefined) continue;
    const value = numberOf(given);
    if (value === null || value < low || value > high) {
      throw lampError(where, `${key} is ${JSON.stringify(given)}; it must be ${low} to ${high}`);
    }
    numbers.set(key, value);
  }
  for (const key of ['vf', 'maxMa']) if (!numbers.has(key)) throw lampError(where, `${key}= is missing`);
  const inSeries = numbers.get('inSeries') ?? 1;
  if (!Number.isInteger(inSeries)) throw lampError(where, `inSeries is ${inSeries}, not a whole number`);
  return {
    name: pairs.get('name') || `lamp ${index + 1}`,
    colour: colourOf(pairs, numbers, where, texts),
    light: lightOf(numbers, where),
    atMa: numbers.get('atMa') ?? null,
    forwardV: numbers.get('vf')!,
    maxMa: numbers.get('maxMa')!,
    inSeries,
  };
}
