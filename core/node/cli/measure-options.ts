import path from 'node:path';
import { encodings, lightKinds, printKinds, roomKinds, type RoomKind } from '../../contract/light';
import type { MeasureJob, MeasureRequest, PhotoRef } from '../../contract/measure';
import { readArguments, usageError, type GivenArguments } from './arguments';
import { readChoice, readCorners, readExposure, readRim, readSize, readViewingDistance } from './option-values';

/** What `measure` was asked for, before a series file is opened. */
export interface MeasureOptions {
  readonly source:
    | { readonly kind: 'photos'; readonly request: MeasureRequest }
    | { readonly kind: 'series'; readonly file: string; readonly room?: RoomKind; readonly viewingDistanceMm?: number };
  readonly output: 'table' | 'json' | 'csv';
  readonly strict: boolean;
  /** As the user wrote it; null without --maps. */
  readonly mapsFolder: string | null;
  /** A file with the camera's tone curve, and one to write it to; as the user wrote them. */
  readonly response: string | null;
  readonly saveResponse: string | null;
}

const photoOptions = [
  'corners',
  'rim',
  'size',
  'outline',
  'print',
  'light',
  'encoding',
  'exposure',
  'lamp-off',
  'flat-field',
  'print-photo',
  'print-photo-corners',
  'reference',
  'reference-corners',
] as const;

const rules = {
  command: 'measure',
  values: [...photoOptions, 'room', 'viewing-distance', 'series', 'maps', 'response', 'save-response'],
  flags: ['json', 'csv', 'strict', 'bracket'],
};

/** The name of a plain photo: its file name without extension. */
function photoName(file: string): string {
  return path.basename(file, path.extname(file));
}

/** Corners and outline: given, or those of a round face by its rim; without either the search looks for them. */
function outlineOf(given: GivenArguments): {
  corners: MeasureJob['windows'][number]['corners'];
  kind: 'rectangle' | 'ellipse';
  isShapeStated: boolean;
} {
  const [corners, rim, outline] = ['corners', 'rim', 'outline'].map((option) => given.values.get(option));
  const kind = outline === undefined ? null : readChoice('outline', outline, ['rectangle', 'ellipse']);
  if (rim !== undefined) {
    if (corners !== undefined) throw usageError('--corners and --rim together', 'Give one of them.');
    if (kind === 'rectangle') {
      throw usageError('--rim and --outline rectangle together', 'A rim is that of a round face: leave --outline out.');
    }
    return { corners: readRim(rim), kind: 'ellipse', isShapeStated: true };
  }
  return {
    corners: corners === undefined ? null : readCorners(corners),
    kind: kind ?? 'rectangle',
    isShapeStated: corners !== undefined || kind !== null,
  };
}

function jobOf(file: string, given: GivenArguments, resolvePath: (file: string) => string): MeasureJob {
  const value = (option: (typeof photoOptions)[number]): string | undefined => given.values.get(option);
  const encoding = readChoice('encoding', value('encoding') ?? 'profile', encodings);
  const size = value('size');
  const { corners, kind, isShapeStated } = outlineOf(given);
  // Saying that the profile rules is no statement about the camera's tone curve.
  const coded = { encoding, encodingStated: encoding !== 'profile' };
  const helper = (option: 'lamp-off' | 'flat-field'): PhotoRef | null => {
    const named = value(option);
    if (named === undefined) return null;
    if (named === '') throw usageError(`--${option} names no file`, 'Name a photo.');
    return { file: named, path: resolvePath(named), ...coded, exposure: {} };
  };
  const [lampOff, flatField] = [helper('lamp-off'), helper('flat-field')];
  return {
    role: 'trial',
    name: photoName(file),
    photo: {
      file,
      path: resolvePath(file),
      ...coded,
      exposure: value('exposure') === undefined ? {} : readExposure(value('exposure') ?? ''),
    },
    light: readChoice('light', value('light') ?? 'unknown', lightKinds),
    windows: [
      {
        spec: {
          name: 'window',
          shape: { kind },
          print: readChoice('print', value('print') ?? 'auto', printKinds),
          leaveOut: [],
          paintedRed: [],
          paintedDark: [],
        },
        sizeMm: size === undefined ? null : readSize(size),
        corners,
        isShapeStated,
      },
    ],
    ...(lampOff ? { lampOff } : {}),
    ...(flatField ? { flatField } : {}),
    ...printPhotoOf(value('print-photo'), value('print-photo-corners'), resolvePath),
  };
}

/** A photo by room light: its codes are taken as they come. */
function printPhotoOf(
  file: string | undefined,
  corners: string | undefined,
  resolvePath: (file: string) => string,
): Pick<MeasureJob, 'printPhoto' | 'printPhotoCorners'> {
  if (file === undefined) {
    if (corners === undefined) return {};
    throw usageError('--print-photo-corners without --print-photo', 'Name the photo by room light with --print-photo.');
  }
  if (file === '') throw usageError('--print-photo names no photo', 'Name the photo.');
  return {
    printPhoto: { file, path: resolvePath(file), encoding: 'profile', encodingStated: false, exposure: {} },
    ...(corners === undefined ? {} : { printPhotoCorners: readCorners(corners, 'print-photo-corners') }),
  };
}

/**
 * The filament photo of the same window, described as the photos named are, but for its corners, its light and its exposure,
 * which only its file tells.
 */
function referenceJob(given: GivenArguments, resolvePath: (file: string) => string): MeasureJob[] {
  const file = given.values.get('reference');
  const corners = given.values.get('reference-corners');
  if (file === undefined) {
    if (corners === undefined) return [];
    throw usageError(
      '--reference-corners without --reference',
      'Name the photo of the filament lamp with --reference.',
    );
  }
  if (file === '') throw usageError('--reference names no photo', 'Name the photo of the filament lamp.');
  const { photo, windows, ...job } = jobOf(file, given, resolvePath);
  const [window] = windows;
  return [
    {
      ...job,
      role: 'reference',
      light: 'filament',
      photo: { ...photo, exposure: {} },
      windows: [{ ...window, corners: corners === undefined ? null : readCorners(corners, 'reference-corners') }],
    },
  ];
}

function seriesSource(given: GivenArguments): MeasureOptions['source'] {
  const file = given.values.get('series') ?? '';
  if (given.files.length > 0) {
    const message = `--series and a photo (${JSON.stringify(given.files[0])}) together`;
    throw usageError(message, 'Name the photo in the series file, or leave --series out.');
  }
  if (given.flags.has('bracket')) {
    throw usageError('--bracket together with --series', 'Name several photos in "photos" of one trial.');
  }
  const misplaced = photoOptions.find((option) => given.values.has(option));
  if (misplaced) throw usageError(`--${misplaced} together with --series`, 'State it in the series file.');
  const room = given.values.get('room');
  const distance = given.values.get('viewing-distance');
  return {
    kind: 'series',
    file,
    ...(room === undefined ? {} : { room: readChoice('room', room, roomKinds) }),
    ...(distance === undefined ? {} : { viewingDistanceMm: readViewingDistance(distance) }),
  };
}

/** A job a photo; with --bracket one job of them all, named after the first. */
function jobsOf(given: GivenArguments, resolvePath: (file: string) => string): MeasureJob[] {
  const jobs = given.files.map((file) => jobOf(file, given, resolvePath));
  if (!given.flags.has('bracket')) return jobs;
  if (jobs[0].photo.exposure.exposureS !== undefined) {
    throw usageError(
      '--bracket and an exposure time together',
      'The times of an exposure series differ: state each in a series file ("photos" of one trial).',
    );
  }
  return [{ ...jobs[0], bracket: jobs.map(({ photo }) => photo) }];
}

/** A curve is recovered from --bracket, and used for single photos. */
function assertResponseOptions({ values, flags }: GivenArguments): void {
  for (const option of ['response', 'save-response']) {
    if (values.get(option) === '') throw usageError(`--${option} names no file`, 'Name a file.');
  }
  if (values.has('save-response') && !flags.has('bracket')) {
    throw usageError('--save-response without --bracket', 'A tone curve is recovered from three to five exposures.');
  }
  if (values.has('response') && flags.has('bracket')) {
    throw usageError(
      '--response and --bracket together',
      'An exposure series tells its own tone curve: leave --response out.',
    );
  }
}

function photosSource(given: GivenArguments, resolvePath: (file: string) => string): MeasureOptions['source'] {
  if (given.files.length === 0) {
    throw usageError('no photo is named', "Name photos or a --series file; 'evendial help measure' shows examples.");
  }
  const reference = referenceJob(given, resolvePath);
  return {
    kind: 'photos',
    request: {
      jobs: [...reference, ...jobsOf(given, resolvePath)],
      // The same window in every photo: corners and print are carried over from the reference.
      ...(reference.length > 0 ? { isSeries: true } : {}),
      room: readChoice('room', given.values.get('room') ?? 'unknown', roomKinds),
      viewingDistanceMm: readViewingDistance(given.values.get('viewing-distance') ?? '500'),
    },
  };
}

/**
 * Reads the command line of `evendial measure`.
 *
 * @param words       what follows `measure`
 * @param resolvePath from a file as written to an absolute path in the caller's folder
 * @throws AppError of kind usage (exit code 2)
 * @rule CL1, CL2, CL3, CL18
 */
export function readMeasureOptions(words: readonly string[], resolvePath: (file: string) => string): MeasureOptions {
  const given = readArguments(words, rules);
  if (given.flags.has('json') && given.flags.has('csv')) {
    throw usageError('--json and --csv together', 'Ask for one of them.');
  }
  if (given.files.includes('')) throw usageError('a photo without a name', 'Check the quotation marks.');
  if (given.values.get('maps') === '') throw usageError('--maps names no folder', 'Name a folder.');
  assertResponseOptions(given);
  const series = given.values.has('series');
  return {
    source: series ? seriesSource(given) : photosSource(given, resolvePath),
    output: given.flags.has('json') ? 'json' : given.flags.has('csv') ? 'csv' : 'table',
    strict: given.flags.has('strict'),
    mapsFolder: given.values.get('maps') ?? null,
    response: given.values.get('response') ?? null,
    saveResponse: given.values.get('save-response') ?? null,
  };
}
