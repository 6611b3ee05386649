import { z } from 'zod';
import { AppError } from '../../base/errors';
import type { BenchVerb, BenchVerbs } from '../../contract/bench';
import { lightKinds, printKinds, roomKinds } from '../../contract/light';
import { placeOf, statedLimits } from '../../contract/series';
import { photoRoles, unitRecord } from '../../contract/unit-record';

/** Far beyond every photo that is decoded; coordinates outside the photo are the engine's to refuse. */
const mostPx = 1e6;

const photo = z.string().min(1).max(64);
const photoPx = z.number().min(-mostPx).max(mostPx);
const pixelCount = z.int().min(1).max(mostPx);
const between = ([low, high]: readonly [number, number]) => z.number().min(low).max(high);

const region = z.strictObject({
  column: z.int().min(0).max(mostPx),
  row: z.int().min(0).max(mostPx),
  width: pixelCount,
  height: pixelCount,
});

const windowPoint = z.strictObject({
  xMm: z.number().min(-2000).max(2000),
  yMm: z.number().min(-2000).max(2000),
});
const polygon = z.array(windowPoint).min(3).max(2000);
const patches = z.array(polygon).max(500);

const shape = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('rectangle') }),
  z.strictObject({ kind: z.literal('ellipse'), cutMm: polygon.exactOptional() }),
  z.strictObject({ kind: z.literal('polygon'), pointsMm: polygon }),
]);

const photoAsked = {
  photo,
  window: z.strictObject({
    cornersPx: z
      .array(z.tuple([photoPx, photoPx]))
      .length(4)
      .nullable(),
    sizeMm: z
      .strictObject({ widthMm: between(statedLimits.sizeMm), heightMm: between(statedLimits.sizeMm) })
      .nullable(),
    shape: shape.nullable(),
    print: z.enum(printKinds),
    leaveOut: patches,
    paintedRed: patches,
    paintedDark: patches,
  }),
  light: z.enum(lightKinds),
  helpers: z.strictObject({ lampOff: photo.nullable(), flatField: photo.nullable(), printPhoto: photo.nullable() }),
};

const measure = z.strictObject({
  ...photoAsked,
  room: z.enum(roomKinds),
  viewingDistanceMm: between(statedLimits.viewingDistanceMm),
  reference: z.strictObject(photoAsked).nullable(),
});

/** As ids and checksums stand in a record: neither can name a place outside the book. */
const unit = unitRecord.shape.id;
const sha256 = unitRecord.shape.photos.element.shape.sha256;
const { name } = unitRecord.shape;
/** As long as the longest text of a record. */
const text = z.string().max(20_000);

const edit = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('set'), field: z.string().min(1).max(2000), text }),
  z.strictObject({ kind: z.literal('add-window'), window: unitRecord.shape.windows.element }),
  z.strictObject({
    kind: z.literal('add-trial'),
    name,
    light: z.enum(lightKinds).nullable(),
    like: name.nullable(),
    mirrorTo: name.nullable(),
  }),
  z.strictObject({ kind: z.literal('choose-trial'), trial: name, why: text }),
  z.strictObject({ kind: z.literal('remove'), list: z.enum(['windows', 'trials', 'parts']), name }),
  z.strictObject({ kind: z.literal('remove-photo'), sha256, role: z.enum(photoRoles), trial: name.nullable() }),
]);

const filed = z.strictObject({ measure, unit, window: name, role: z.enum(photoRoles), trial: name.nullable() });

/** Edits of one revision, and photos filed at once: far beyond what a person does in one step. */
const mostEdits = 1000;
const mostFiled = 400;

/** Every two are compared: of so many, eighty thousand pairs. */
const mostCompared = 400;

/** The longest side of a picture for a screen, and the most pixels of light that the page is given at a time. */
export const mostScreenSidePx = 8192;
export const mostLinearPixels = 16_000_000;

type Validators = { readonly [Verb in BenchVerb]: z.ZodType<BenchVerbs[Verb]['asks']> };

const validators: Validators = {
  hello: z.strictObject({}),
  addSamples: z.strictObject({ names: z.array(z.string().min(1).max(200)).max(200) }),
  removePhotos: z.strictObject({ photos: z.array(photo).max(10_000) }),
  find: z.strictObject({ photo }),
  measure,
  pixels: z.strictObject({ photo, mostSidePx: z.int().min(1).max(mostScreenSidePx), region: region.nullable() }),
  linear: z.strictObject({ photo, region, mostPixels: z.int().min(1).max(mostLinearPixels) }),
  exportReading: z.strictObject({ measure, what: z.enum(['json', 'csv', 'pictures']) }),
  printShade: z.strictObject({
    measure,
    gapMm: z.number().min(0).max(20).nullable(),
    strength: z.number().min(0.05).max(1),
    isMirrored: z.boolean(),
    form: z.enum(['pdf', 'svg']),
  }),
  compare: z.strictObject({
    photos: z.array(photo).max(mostCompared),
    reference: photo.nullable(),
    inView: photo.exactOptional(),
  }),
  match: z.strictObject({ photos: z.tuple([photo, photo]) }),
  watchRead: z.strictObject({ after: z.int().min(0).max(Number.MAX_SAFE_INTEGER) }),
  watchChoose: z.strictObject({}),
  watchStop: z.strictObject({}),
  carryOutline: z.strictObject({ from: z.strictObject(photoAsked), to: photo }),
  cancel: z.strictObject({ call: z.string().min(1).max(64) }),
  bookList: z.strictObject({ search: z.string().max(1000) }),
  unitRead: z.strictObject({ unit }),
  unitCreate: z.strictObject({ name, like: unit.nullable() }),
  unitEdit: z.strictObject({ unit, edits: z.array(edit).min(1).max(mostEdits) }),
  unitRestore: z.strictObject({ unit, which: z.enum(['undo', 'redo']) }),
  unitRepair: z.strictObject({ unit }),
  unitLeftovers: z.strictObject({ unit }),
  unitTimeline: z.strictObject({ unit, most: z.int().min(1).max(10_000) }),
  unitThumbnail: z.strictObject({ unit, sha256: sha256.nullable(), window: name.nullable() }),
  fileReadings: z.strictObject({
    filed: z
      .array(filed)
      .min(1)
      .max(mostFiled)
      .refine((all) => all.every((one) => one.unit === all[0]?.unit), { error: 'must all go into one unit' }),
  }),
  layUnit: z.strictObject({ unit, window: name }),
  unitSheet: z.strictObject({
    unit,
    form: z.enum(['pdf', 'html']),
    paper: z.enum(['A4', 'Letter']),
    share: z.boolean(),
  }),
  unitExport: z.strictObject({ unit, share: z.boolean() }),
  unitImport: z.strictObject({ upload: photo }),
};

/** Whether a text names a verb; a name that every object has is none. */
export function isVerb(name: unknown): name is BenchVerb {
  return typeof name === 'string' && Object.hasOwn(validators, name);
}

/**
 * What a verb is asked, checked to the last field: the page may be wrong, and so may whoever speaks in its place.
 *
 * @throws AppError VERB_UNKNOWN, ASKED_WRONGLY  with every place (the first 4)
 * @rule BE4
 */
export function readAsks<Verb extends BenchVerb>(verb: Verb, given: unknown): BenchVerbs[Verb]['asks'] {
  if (!isVerb(verb)) {
    throw new AppError('usage', 'VERB_UNKNOWN', `the host knows no ${JSON.stringify(verb)}`, 'Load the page again.');
  }
  const read = validators[verb].safeParse(given);
  if (read.success) return read.data;
  const places = read.error.issues.slice(0, 4).map((issue) => `${placeOf(issue.path) || 'the call'}: ${issue.message}`);
  const message = `${verb} was asked wrongly: ${places.join('; ')}`;
  throw new AppError('usage', 'ASKED_WRONGLY', message, 'Correct the value that is named.');
}
