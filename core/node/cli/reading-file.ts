import { readFile, stat } from 'node:fs/promises';
import path from 'node:path';
import { z } from 'zod';
import type { Uv1976 } from '../../colour/chromaticity';
import { printable } from '../../display/figure-text';
import { usageError } from './arguments';
import type { Shell } from './shell';

const figureSchema = z.object({
  value: z.number().nullable(),
  plusMinus: z.number().nullable().optional(),
  reason: z.string().optional(),
});
const colourSchema = z.object({
  name: z.string(),
  colour: z.object({ uPrime: figureSchema, vPrime: figureSchema, outOfGamut: z.boolean().optional() }),
});

/** A readings document of which each reading has at least what a schema asks for. */
const documentSchemaOf = <Schema extends z.ZodType<{ name: string }>>(reading: Schema) =>
  z.object({
    format: z.literal('evendial-readings'),
    version: z.literal(1),
    readings: z.array(z.union([reading, z.object({ file: z.string(), error: z.unknown() })])),
    reference: z.array(z.union([reading, z.object({ file: z.string(), error: z.unknown() })])).optional(),
  });

const largestBytes = 64 * 1024 * 1024;

/** The text of a file that an option names. @throws AppError FILE_MISSING, FILE_TOO_LARGE */
export async function readNamedFile(option: string, file: string, shell: Shell): Promise<string> {
  const full = path.resolve(shell.folder, file);
  const called = `--${option}: ${printable(file)}`;
  const facts = await stat(full).catch(() => null);
  if (facts === null || !facts.isFile()) {
    throw usageError(
      `${called} is not there`,
      'Check the name; relative paths belong to the current folder.',
      'FILE_MISSING',
    );
  }
  if (facts.size > largestBytes) throw usageError(`${called} is too large`, 'Name a text file.', 'FILE_TOO_LARGE');
  return readFile(full, 'utf8');
}

function jsonOf(text: string, called: string): unknown {
  try {
    return JSON.parse(text);
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    throw usageError(
      `${called} is not JSON: ${why}`,
      "Write it with 'evendial measure ... --json'.",
      'READINGS_INVALID',
    );
  }
}

/** `READINGS.json` or `READINGS.json#name`; a # belongs to the name only behind .json. */
function partsOf(text: string): { file: string; name: string | null } {
  const parts = /^(.*\.json)#(.*)$/is.exec(text);
  return parts ? { file: parts[1], name: parts[2] } : { file: text, name: null };
}

/** One reading of a file, and how the file is told of. */
export interface NamedReading<Reading> {
  readonly reading: Reading;
  readonly file: string;
  readonly called: string;
}

/** Every reading of a file that measured well, reference last. */
async function readingsOf<Reading extends { name: string }>(
  option: string,
  file: string,
  schema: z.ZodType<Reading>,
  shell: Shell,
): Promise<Reading[]> {
  const called = `--${option}: ${printable(file)}`;
  const parsed = documentSchemaOf(schema).safeParse(jsonOf(await readNamedFile(option, file, shell), called));
  if (!parsed.success) {
    const [issue] = parsed.error.issues;
    const message = `${called} is not a readings file: ${issue.path.join('.') || 'the document'}: ${issue.message}`;
    throw usageError(message, "Write it with 'evendial measure ... --json'.", 'READINGS_INVALID');
  }
  const isReading = (one: Reading | { file: string }): one is Reading => 'name' in one;
  return [...parsed.data.readings, ...(parsed.data.reference ?? [])].filter(isReading);
}

/**
 * One reading of a file, named as `READINGS.json[#name]`; the name may be left out when there is one reading.
 *
 * @throws AppError FILE_MISSING, READINGS_INVALID, READING_UNKNOWN
 * @rule LF5
 */
export async function readNamedReading<Reading extends { name: string }>(
  option: string,
  text: string,
  schema: z.ZodType<Reading>,
  shell: Shell,
): Promise<NamedReading<Reading>> {
  const { file, name } = partsOf(text);
  const called = `--${option}: ${printable(file)}`;
  const readings = await readingsOf(option, file, schema, shell);
  const found = name === null ? (readings.length === 1 ? readings : []) : readings.filter((one) => one.name === name);
  if (found.length !== 1) {
    const names = readings.map((one) => printable(one.name)).join(', ');
    const what =
      name === null ? `holds ${readings.length} readings` : `has ${found.length} readings named ${printable(name)}`;
    throw usageError(
      `${called} ${what}`,
      `Write ${printable(file)}#NAME; there are: ${names || 'none'}.`,
      'READING_UNKNOWN',
    );
  }
  return { reading: found[0], file, called };
}

/** A glow as a photo has it. */
export interface PhotographedGlow extends Uv1976 {
  /** It lies outside the file's colour space, which holds it as near as it can. */
  readonly isCutShort: boolean;
  /** Of u' and v', k = 2; null: the file does not tell. */
  readonly plusMinus: Uv1976 | null;
}

/**
 * The glow's chromaticity in a reading, named as `READINGS.json[#name]`.
 *
 * @throws AppError READING_WITHOUT_COLOUR; else as `readNamedReading`
 * @rule LF5
 */
export async function readGlowColour(option: string, text: string, shell: Shell): Promise<PhotographedGlow> {
  const { reading, called } = await readNamedReading(option, text, colourSchema, shell);
  const { uPrime, vPrime, outOfGamut } = reading.colour;
  if (uPrime.value === null || vPrime.value === null) {
    const message = `${called}: ${printable(reading.name)} has no colour: ${uPrime.reason ?? 'no reason given'}`;
    throw usageError(
      message,
      'Take the photo again as its photo checks say, and measure it.',
      'READING_WITHOUT_COLOUR',
    );
  }
  const hasDoubt = uPrime.plusMinus != null && vPrime.plusMinus != null;
  return {
    uPrime: uPrime.value,
    vPrime: vPrime.value,
    plusMinus: hasDoubt ? { uPrime: uPrime.plusMinus!, vPrime: vPrime.plusMinus! } : null,
    isCutShort: outOfGamut ?? false,
  };
}
