import { z } from 'zod';
import { lightKinds, roomKinds } from './light';
import { seriesParts, statedLimits } from './series';

/** A short answer on one line. */
export const line = z
  .string()
  .min(1, { error: 'must not be empty' })
  .max(500, { error: 'must be 500 characters at most' });
/** Notes of any length that a person writes. */
export const text = z
  .string()
  .min(1, { error: 'must not be empty' })
  .max(20_000, { error: 'must be 20000 characters at most' });
const atLeastZero = z.number().min(0, { error: 'must be 0 or more' });
const volts = z.number().min(-1000, { error: 'must be -1000 to 1000' }).max(1000, { error: 'must be -1000 to 1000' });
const count = z.int({ error: 'must be a whole number' }).min(1, { error: 'must be 1 or more' });
/** A day, ISO 8601. */
const day = z.string().regex(/^\d{4}-\d{2}-\d{2}$/, { error: 'must be a day as 2026-05-31' });

/** The filament lamp as it was found. */
const lampBefore = z.strictObject({
  base: line.optional(),
  size: line.optional(),
  ratedV: volts.optional(),
  ratedMa: atLeastZero.optional(),
  /** Lamps on the same supply. */
  countOnSupply: count.optional(),
});

/** What feeds the lamp, measured before anything is changed. */
const supplyBefore = z.strictObject({
  kind: z.enum(['AC', 'DC']).optional(),
  hz: atLeastZero.optional(),
  voltsWithLamp: volts.optional(),
  voltsWithoutLamp: volts.optional(),
  wiring: z.enum(['single', 'series', 'parallel']).optional(),
  dropper: line.optional(),
  dimmer: line.optional(),
  /** Whether a side lies on the chassis, or a centre tap does. */
  chassis: line.optional(),
  alsoOnLine: text.optional(),
  /** What stopped working with the lamp pulled. */
  senseTest: text.optional(),
});

/** How the filament lamp's light came to the window. */
const lightBefore = z.strictObject({
  /** Boot, cap or dip over the lamp: its colour and state. */
  boot: line.optional(),
  bootColour: line.optional(),
  bootState: line.optional(),
  referenceLamp: z.enum(['new', 'tired']).optional(),
  referenceVolts: volts.optional(),
  path: z.enum(['behind', 'bounced', 'edge-lit']).optional(),
  boxWall: line.optional(),
  cleanedSinceReference: z.boolean().optional(),
  glass: z.enum(['on', 'off']).optional(),
});

export const before = z.strictObject({
  lamp: lampBefore.optional(),
  supply: supplyBefore.optional(),
  light: lightBefore.optional(),
  notes: text.optional(),
});

/** A lamp of a trial: where it is (as in a series file), and what it is. */
const lamp = seriesParts.lamp.extend({
  type: line.optional(),
  lot: line.optional(),
  bodyMm: atLeastZero.optional(),
  flangeMm: atLeastZero.optional(),
  viewingAngleDeg: z.number().min(0).max(360, { error: 'must be 0 to 360' }).optional(),
  tipToScaleMm: atLeastZero.optional(),
  lensTreatment: line.optional(),
});

/** Lamps that share a resistor. */
const lampString = z.strictObject({
  name: seriesParts.name,
  lamps: z.array(seriesParts.name).optional(),
  resistorOhm: atLeastZero.optional(),
  resistorRatedW: atLeastZero.optional(),
  measuredMa: atLeastZero.optional(),
});

/** What was forecast of an arrangement before it was tried, to be held against what is measured. */
const planned = z.strictObject({
  what: line.optional(),
  /** The trial whose reading it was forecast from, and the window; left out: the unit has one. */
  from: seriesParts.name.optional(),
  window: seriesParts.name.optional(),
  /** Score and plus-minus, k = 2. */
  evenness: z.number().min(0).max(100, { error: 'must be 0 to 100' }).optional(),
  evennessPlusMinus: atLeastZero.optional(),
});

/** One arrangement that was tried, or is to be. */
export const trial = z.strictObject({
  name: seriesParts.name,
  /** The windows that it lights; left out: all. */
  windows: z.array(seriesParts.name).optional(),
  light: z.enum(lightKinds).optional(),
  lamps: z.array(lamp).optional(),
  diffuser: line.optional(),
  shade: line.optional(),
  strings: z.array(lampString).optional(),
  supplyVolts: volts.optional(),
  /** The trial that it was begun from, and the window that it was mirrored to. */
  like: seriesParts.name.optional(),
  mirroredTo: seriesParts.name.optional(),
  planned: planned.optional(),
  notes: text.optional(),
});

export const part = z.strictObject({
  name: seriesParts.name,
  count: count.optional(),
  type: line.optional(),
  lot: line.optional(),
  source: line.optional(),
  notes: text.optional(),
});

/** What was checked when the swap was done. */
export const after = z.strictObject({
  supplyVolts: volts.optional(),
  /** Near the lamp, after 30 minutes with the cover on. */
  temperatureC: z.number().optional(),
  hum: line.optional(),
  amNoise: line.optional(),
  functionsRechecked: text.optional(),
  reversible: z.boolean().optional(),
  howToGoBack: text.optional(),
  recheckOn: day.optional(),
  recheckResult: text.optional(),
  notes: text.optional(),
});

/** How the photos of a unit are taken and looked at, where a photo does not say otherwise. */
export const photography = z.strictObject({
  room: z.enum(roomKinds).optional(),
  viewingDistanceMm: seriesParts.between(statedLimits.viewingDistanceMm).optional(),
});
