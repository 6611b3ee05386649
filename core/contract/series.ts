import { z } from 'zod';
import { crossingSides } from '../base/crossing-sides';
import { AppError } from '../base/errors';
import type { Corners, WindowPoint } from '../base/points';
import { encodings, lightKinds, printKinds, roomKinds } from './light';
import type { MeasureJob, MeasureRequest, PhotoRef, WindowInPhoto } from './measure';
import type { OutlineShape } from './outline';
import { referenceCorners } from './series-reference';
import { problemsOf, valueAt, wrongChoiceWords, wrongTypeWords } from './series-problems';

/** The limits of what a user may state; the same on the command line and in a series file. */
export const statedLimits = {
  sizeMm: [2, 1000],
  viewingDistanceMm: [100, 5000],
  exposureS: [1e-6, 3600],
  fNumber: [0.5, 128],
  iso: [1, 1e7],
} as const;

const between = ([low, high]: readonly [number, number]) =>
  z
    .number()
    .min(low, { error: `must be ${low} to ${high}` })
    .max(high, { error: `must be ${low} to ${high}` });
const name = z.string().min(1, { error: 'must not be empty' }).max(200, { error: 'must be 200 characters at most' });
/** Says how many numbers a list must hold; another mistake keeps its own words. */
const count = (issue: { readonly code: string }, size: number): string | undefined =>
  issue.code === 'invalid_type' ? undefined : `must hold ${size} numbers`;
const pair = z.tuple([z.number(), z.number()], { error: (issue) => count(issue, 2) });
const corners = z.array(pair).length(4, {
  error: 'must hold 4 points: top-left, top-right, bottom-right, bottom-left of the window as one reads it',
});
const polygon = z
  .array(pair)
  .min(3, { error: 'must hold 3 points or more' })
  .max(500, { error: 'must hold 500 points at most' })
  .refine(hasArea, {
    error: 'must enclose an area: its points are on one line',
  })
  .superRefine((points, context) => {
    const crossing = crossingSides(points);
    if (!crossing) return;
    const sides = crossing.map((from) => `from point ${from + 1}`).join(' and ');
    context.addIssue({ code: 'custom', message: `must not cross itself: its sides ${sides} do` });
  });
const patch = z.strictObject({ pointsMm: polygon });

/** Twice the enclosed area (shoelace formula) must not vanish. */
function hasArea(points: readonly (readonly [number, number])[]): boolean {
  let twice = 0;
  points.forEach(([x, y], i) => {
    const [nextX, nextY] = points[(i + 1) % points.length];
    twice += x * nextY - nextX * y;
  });
  return Math.abs(twice) > 1e-6;
}

const outline = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('rectangle') }),
  z.strictObject({ kind: z.literal('ellipse'), cutMm: polygon.optional() }),
  z.strictObject({ kind: z.literal('polygon'), pointsMm: polygon }),
]);

const photo = z.preprocess(
  (given) => (typeof given === 'string' ? { file: given } : given),
  z.strictObject({
    file: z.string().min(1, { error: 'must name a file' }),
    exposureS: between(statedLimits.exposureS).optional(),
    fNumber: between(statedLimits.fNumber).optional(),
    iso: between(statedLimits.iso).optional(),
    encoding: z.enum(encodings).optional(),
  }),
);
const photos = z.array(photo).min(1, { error: 'must name a photo' });
const helperPhoto = photo.nullish();
const cornersByWindow = z.record(z.string(), corners);

const window = z.strictObject({
  name,
  widthMm: between(statedLimits.sizeMm),
  heightMm: between(statedLimits.sizeMm),
  outline: outline.optional(),
  print: z.enum(printKinds).optional(),
  leaveOut: z.array(patch).optional(),
  painted: z.strictObject({ red: z.array(patch).optional(), dark: z.array(patch).optional() }).optional(),
});

const lamp = z.strictObject({
  name,
  positionMm: z.tuple([z.number(), z.number(), z.number()], { error: (issue) => count(issue, 3) }).optional(),
  tiltDeg: pair.optional(),
  currentMa: z.number().min(0, { error: 'must be 0 or more' }).optional(),
  on: z.boolean().optional(),
});

const witness = z.strictObject({ photoPolygonPx: polygon }).nullish();

const reference = z.strictObject({
  window: z.string().optional(),
  photos,
  light: z.enum(lightKinds).optional(),
  lampOff: helperPhoto,
  flatField: helperPhoto,
  printPhoto: helperPhoto,
  witness,
  corners: cornersByWindow.optional(),
});

const trial = z.strictObject({
  name,
  photos,
  light: z.enum(lightKinds).optional(),
  lampOff: helperPhoto,
  flatField: helperPhoto,
  printPhoto: helperPhoto,
  witness,
  corners: cornersByWindow.optional(),
  lamps: z.array(lamp).optional(),
});

const series = z
  .strictObject({
    format: z.literal('evendial-series'),
    version: z.literal(1),
    viewingDistanceMm: between(statedLimits.viewingDistanceMm).optional(),
    room: z.enum(roomKinds).optional(),
    response: z.string().min(1, { error: 'must name a file' }).optional(),
    windows: z.array(window).min(1, { error: 'must describe a window' }),
    reference: reference.nullish(),
    trials: z.array(trial).optional(),
  })
  .superRefine((file, context) => {
    for (const problem of problemsOf(file)) {
      context.addIssue({ code: 'custom', path: [...problem.path], message: problem.message });
    }
  });

/** What a unit's record describes in the same words as a series file. */
export const seriesParts = {
  between,
  name,
  pair,
  polygon,
  patch,
  outline,
  window,
  lamp,
  witness,
  cornersByWindow,
} as const;

/** A series file as written, after every check of its shape. */
export type SeriesFile = z.infer<typeof series>;
export type SeriesTrial = NonNullable<SeriesFile['trials']>[number];
export type SeriesReference = NonNullable<SeriesFile['reference']>;
export type SeriesWindow = SeriesFile['windows'][number];

/**
 * A place inside a JSON document as a person writes it: `trials[0].lamps[1].colour`.
 *
 * @source common practice (JavaScript's own notation)
 * @rule SE1
 */
export function placeOf(path: readonly PropertyKey[]): string {
  return path.reduce<string>((place, step) => {
    if (typeof step === 'number') return `${place}[${step}]`;
    const key = String(step);
    if (!/^[\p{L}_$][\p{L}\p{N}_$]*$/u.test(key)) return `${place}[${JSON.stringify(key)}]`;
    return place === '' ? key : `${place}.${key}`;
  }, '');
}

/** What is wrong, each with its place, in words for whoever wrote the document. @rule SE1 */
export function sentencesOf(issue: z.core.$ZodIssue, document: unknown): string[] {
  const place = placeOf(issue.path);
  if (issue.code === 'unrecognized_keys') {
    return issue.keys.map((key) => `${placeOf([...issue.path, key])}: unknown key`);
  }
  if (issue.code === 'invalid_value') {
    return [`${place}: ${wrongChoiceWords(issue.values, valueAt(document, issue.path))}`];
  }
  if (issue.code === 'invalid_type') {
    const missing = /received undefined$/.test(issue.message);
    return [`${place || 'the file'}: ${missing ? 'is missing' : wrongTypeWords(issue.expected)}`];
  }
  if (issue.code === 'invalid_union') {
    const written = JSON.stringify(valueAt(document, issue.path));
    return [`${place}: must be one of the documented kinds, not ${written}`];
  }
  return [`${place || 'the file'}: ${issue.message}`];
}

const remedyOfShape = 'Correct the series file at the place named; `evendial help series` shows its keys.';

/**
 * Reads the text of a series file. Unknown keys are refused with their path, so that a typing error never passes silently.
 *
 * @param text   the whole file; a byte-order mark is ignored
 * @param called what the user called the file, for messages
 * @throws AppError SERIES_NOT_JSON, SERIES_TOO_NEW, SERIES_INVALID  with every place (the first 8)
 * @rule SE1, SE2
 */
export function readSeries(text: string, called: string): SeriesFile {
  const given = jsonOf(text.replace(/^\uFEFF/, ''), called);
  const version = typeof given === 'object' && given !== null && 'version' in given ? given.version : undefined;
  if (typeof version === 'number' && version > 1) {
    const message = `${called} is a series file of version ${version}; this program reads version 1`;
    throw new AppError('usage', 'SERIES_TOO_NEW', message, 'Use a newer version of this program.');
  }
  const read = series.safeParse(given);
  if (!read.success) {
    const places = read.error.issues.flatMap((issue) => sentencesOf(issue, given));
    const shown = places.slice(0, 8).map((sentence) => `\n  ${sentence}`);
    const more = places.length > shown.length ? `\n  and ${places.length - shown.length} more` : '';
    const message = `${called} is not a valid series file:${shown.join('')}${more}`;
    throw new AppError('usage', 'SERIES_INVALID', message, remedyOfShape);
  }
  return read.data;
}

function jsonOf(text: string, called: string): unknown {
  try {
    return JSON.parse(text);
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error);
    const remedy = 'Correct the file: usually a comma or a quotation mark is missing or too many.';
    throw new AppError('usage', 'SERIES_NOT_JSON', `${called} is not JSON: ${reason}`, remedy);
  }
}

const windowPoint = ([xMm, yMm]: readonly [number, number]): WindowPoint => ({ xMm, yMm });
const pointsOf = (patches: readonly z.infer<typeof patch>[] | undefined): WindowPoint[][] =>
  (patches ?? []).map((one) => one.pointsMm.map(windowPoint));

function shapeOf(given: SeriesWindow['outline']): OutlineShape {
  if (given?.kind === 'polygon') return { kind: 'polygon', pointsMm: given.pointsMm.map(windowPoint) };
  if (given?.kind === 'ellipse') {
    return given.cutMm ? { kind: 'ellipse', cutMm: given.cutMm.map(windowPoint) } : { kind: 'ellipse' };
  }
  return { kind: 'rectangle' };
}

function windowInPhoto(given: SeriesWindow, points: z.infer<typeof corners> | null): WindowInPhoto {
  return {
    spec: {
      name: given.name,
      shape: shapeOf(given.outline),
      print: given.print ?? 'auto',
      leaveOut: pointsOf(given.leaveOut),
      paintedRed: pointsOf(given.painted?.red),
      paintedDark: pointsOf(given.painted?.dark),
    },
    sizeMm: { widthMm: given.widthMm, heightMm: given.heightMm },
    corners: points && (points.map(([column, row]) => ({ column, row })) as unknown as Corners),
    isShapeStated: true,
  };
}

/** A photo as the engine is given it, with what is stated of its encoding and exposure. */
export function photoRefOf(given: z.infer<typeof photo>, resolvePath: (file: string) => string): PhotoRef {
  const { file, encoding, exposureS, fNumber, iso } = given;
  return {
    file,
    path: resolvePath(file),
    encoding: encoding ?? 'profile',
    encodingStated: encoding !== undefined && encoding !== 'profile',
    exposure: {
      ...(exposureS === undefined ? {} : { exposureS }),
      ...(fNumber === undefined ? {} : { fNumber }),
      ...(iso === undefined ? {} : { iso }),
    },
  };
}

/** The photos to be measured: one, or an exposure series. */
function litPhotosOf(
  { photos: named }: SeriesTrial | SeriesReference,
  resolvePath: (file: string) => string,
): Pick<MeasureJob, 'photo' | 'bracket'> {
  const photos = named.map((one) => photoRefOf(one, resolvePath));
  return { photo: photos[0], ...(photos.length > 1 ? { bracket: photos } : {}) };
}

/** Photos and the patch that make a photo comparable; what a helper's encoding does not state is that of the photo. */
function helpersOf(
  { photos: [lit], lampOff, flatField, witness: patch }: SeriesTrial | SeriesReference,
  resolvePath: (file: string) => string,
): Pick<MeasureJob, 'lampOff' | 'flatField' | 'witnessPx'> {
  const helper = (given: z.infer<typeof photo>): PhotoRef =>
    photoRefOf(given.encoding === undefined ? { ...given, encoding: lit.encoding } : given, resolvePath);
  return {
    ...(lampOff ? { lampOff: helper(lampOff) } : {}),
    ...(flatField ? { flatField: helper(flatField) } : {}),
    ...(patch ? { witnessPx: patch.photoPolygonPx.map(([column, row]) => ({ column, row })) } : {}),
  };
}

/** The windows that a photo shows: those with corners; without any, all of them, to be found. In the order of the file. */
function shownWindows(file: SeriesFile, placed: SeriesTrial['corners']): WindowInPhoto[] {
  const byName = new Map(Object.entries(placed ?? {}));
  if (byName.size === 0) return file.windows.map((one) => windowInPhoto(one, null));
  return file.windows.flatMap((one) => {
    const points = byName.get(one.name);
    return points ? [windowInPhoto(one, points)] : [];
  });
}

/** A photo from which only the place of the print is taken. */
function printPhotoOf(one: SeriesTrial | SeriesReference, resolvePath: (file: string) => string): Partial<MeasureJob> {
  return one.printPhoto ? { printPhoto: photoRefOf(one.printPhoto, resolvePath) } : {};
}

function referenceJob(file: SeriesFile, resolvePath: (file: string) => string): MeasureJob[] {
  if (!file.reference) return [];
  const only = file.windows.find((one) => one.name === file.reference?.window);
  const shown = shownWindows(file, referenceCorners(file));
  const chosen = shown.filter(({ spec }) => spec.name === only?.name);
  return [
    {
      role: 'reference',
      ...(only ? { standsForAll: true as const } : {}),
      name: 'reference',
      ...litPhotosOf(file.reference, resolvePath),
      light: file.reference.light ?? 'filament',
      // A window that has no corners is looked for.
      windows: only && chosen.length === 0 ? [windowInPhoto(only, null)] : only ? chosen : shown,
      ...printPhotoOf(file.reference, resolvePath),
      ...helpersOf(file.reference, resolvePath),
    },
  ];
}

/**
 * What the engine is to measure: the reference first, then the trials in the order of the file.
 * A reference counts as filament light and a trial as unknown light unless the file says otherwise; the room as unknown; 500 mm away.
 *
 * @param resolvePath turns a file as written in the series into what the decoder opens (relative to the series file's folder)
 * @rule SE4
 */
export function requestOfSeries(file: SeriesFile, resolvePath: (file: string) => string): MeasureRequest {
  const trials = (file.trials ?? []).map((one): MeasureJob => ({
    role: 'trial',
    name: one.name,
    ...litPhotosOf(one, resolvePath),
    light: one.light ?? 'unknown',
    windows: shownWindows(file, one.corners),
    ...helpersOf(one, resolvePath),
    ...printPhotoOf(one, resolvePath),
  }));
  return {
    jobs: [...referenceJob(file, resolvePath), ...trials],
    room: file.room ?? 'unknown',
    viewingDistanceMm: file.viewingDistanceMm ?? 500,
    isSeries: true,
  };
}
