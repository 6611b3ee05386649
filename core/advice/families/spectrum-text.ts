import { AppError } from '../../base/errors';
import { spectrumFromTable, type Spectrum } from '../../colour/spectra';

/** Wavelengths that a file may hold, nm, and the widest gap between two. */
const firstNm = 200;
const lastNm = 2500;
const widestGapNm = 20;

const form =
  'One line a wavelength: nm,value with a decimal point, rising, 2 lines or more; the first line may be a heading.';

function wrong(file: string, line: number, what: string): AppError {
  return new AppError('usage', 'SPECTRUM_INVALID', `${file}, line ${line}: ${what}`, form);
}

const decimal = /^[+-]?(\d+(\.\d*)?|\.\d+)(e[+-]?\d+)?$/i;

/**
 * A lamp's spectrum out of a text of `nm,value` lines. Empty lines and those that begin with # do not count; a first line without
 * numbers is a heading.
 *
 * @param file  how messages call the text
 * @returns relative power, straight between the lines, 0 outside them
 * @throws AppError SPECTRUM_INVALID  with the line and what is wrong there
 * @source our own choice of the form
 * @rule LF4
 */
export function spectrumFromText(text: string, file: string): Spectrum {
  const wavelengthsNm: number[] = [];
  const powers: number[] = [];
  const lines = text.replace(/^\uFEFF/, '').split(/\r\n|\n|\r/);
  let isFirst = true;
  lines.forEach((line, index) => {
    if (line.trim() === '' || line.trimStart().startsWith('#')) return;
    const fields = line.split(/[,;\t]/).map((field) => field.trim());
    const isHeading = isFirst && fields.every((field) => !decimal.test(field));
    isFirst = false;
    if (isHeading) return;
    if (fields.length !== 2) throw wrong(file, index + 1, `${fields.length} fields, not 2`);
    const [nm, power] = fields.map((field) => (decimal.test(field) ? Number(field) : NaN));
    if (!(nm >= firstNm && nm <= lastNm))
      throw wrong(file, index + 1, `the wavelength is ${JSON.stringify(fields[0])}`);
    if (!(power >= 0) || !Number.isFinite(power))
      throw wrong(file, index + 1, `the value is ${JSON.stringify(fields[1])}`);
    const before = wavelengthsNm.at(-1);
    if (before !== undefined && nm <= before)
      throw wrong(file, index + 1, `${nm} nm after ${before} nm: they must rise`);
    if (before !== undefined && nm - before > widestGapNm) {
      throw wrong(file, index + 1, `${nm} nm after ${before} nm: more than ${widestGapNm} nm apart`);
    }
    wavelengthsNm.push(nm);
    powers.push(power);
  });
  if (powers.length < 2) throw wrong(file, lines.length, `only ${powers.length} wavelengths in the file`);
  const isVisible = powers.some((power, i) => power > 0 && wavelengthsNm[i] > 400 && wavelengthsNm[i] < 700);
  if (!isVisible) throw wrong(file, lines.length, 'no light between 400 and 700 nm in the file');
  return spectrumFromTable(wavelengthsNm, powers);
}
