import { z } from 'zod';
import type { Figure } from './figure';
import { encodings, lightKinds } from './light';
import { seriesParts, statedLimits } from './series';
import { after, before, line, part, photography, text, trial } from './unit-fields';

/** The version of the record that this program writes. */
export const unitVersion = 1;

/** What a photo of a unit is for. */
export const photoRoles = ['reference', 'trial', 'lamp-off', 'flat-field', 'print-photo', 'other'] as const;
export type PhotoRole = (typeof photoRoles)[number];

const { between, name } = seriesParts;
const revisionNumber = z.int().min(1);
const instant = z.iso.datetime({ error: 'must be a time as 2026-05-31T18:00:00.000Z' });
const sha256 = z.string().regex(/^[0-9a-f]{64}$/, { error: 'must be 64 hexadecimal digits' });

const photo = z.strictObject({
  sha256,
  /** Ending of the original in the unit's folder. */
  ending: z.string().regex(/^[a-z0-9]{1,8}$/, { error: 'must be 1 to 8 small letters or digits' }),
  /** What the file was called. */
  name: line,
  bytes: z.int().min(0),
  role: z.enum(photoRoles),
  /** The trial that it shows; of a helper photo: the only one it is for. */
  trial: name.optional(),
  light: z.enum(lightKinds).optional(),
  exposureS: between(statedLimits.exposureS).optional(),
  fNumber: between(statedLimits.fNumber).optional(),
  iso: between(statedLimits.iso).optional(),
  encoding: z.enum(encodings).optional(),
  corners: seriesParts.cornersByWindow.optional(),
  witness: seriesParts.witness,
  notes: text.optional(),
});

// The validator's own type would let `reason` be undefined, which no figure has.
const figure = z
  .strictObject({ value: z.number().nullable(), plusMinus: z.number().nullable(), reason: z.string().optional() })
  .refine((given) => (given.value === null) === (given.plusMinus === null), {
    error: 'must have a plus-minus exactly when it has a value',
  }) as unknown as z.ZodType<Figure>;

/** The leading figures of one photo of one window, as they were when it was measured; all others are made again. */
const reading = z.strictObject({
  /** null: the reference. */
  trial: name.nullable(),
  window: name,
  photo: sha256,
  measuredAt: instant,
  program: line,
  evenness: figure,
  evennessWords: z.string(),
  redPrint: figure,
  redPrintWords: z.string(),
  toReferenceUv: figure,
  colourWords: z.string(),
  gates: z.array(z.strictObject({ code: line, level: z.enum(['note', 'warn', 'refuse']) })),
});

const window = seriesParts.window.extend({ notes: text.optional() });

/** Everything kept about a unit; all but its name is optional. */
export const unitRecord = z.strictObject({
  format: z.literal('evendial-unit'),
  version: z.literal(unitVersion),
  id: z.string().regex(/^[a-z0-9](?:[a-z0-9-]{0,78}[a-z0-9])?$/, { error: 'must be small letters, digits and dashes' }),
  revision: revisionNumber,
  savedAt: instant,
  /** The revision whose content undoing, or redoing, brings back; null: none. */
  undo: revisionNumber.nullable(),
  redo: revisionNumber.nullable(),
  /** The revision whose content this one brought back. */
  restores: revisionNumber.optional(),
  name,
  maker: line.optional(),
  model: line.optional(),
  serialNumber: line.optional(),
  owner: line.optional(),
  notes: text.optional(),
  photography: photography.optional(),
  before: before.optional(),
  windows: z.array(window),
  photos: z.array(photo),
  trials: z.array(trial),
  readings: z.array(reading),
  chosen: z.strictObject({ trial: name, why: text.optional() }).optional(),
  parts: z.array(part),
  after: after.optional(),
});

export type UnitRecord = z.infer<typeof unitRecord>;
export type UnitWindow = UnitRecord['windows'][number];
export type UnitPhoto = UnitRecord['photos'][number];
export type UnitTrial = UnitRecord['trials'][number];
export type UnitLamp = NonNullable<UnitTrial['lamps']>[number];
export type UnitReading = UnitRecord['readings'][number];
