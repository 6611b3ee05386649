import { spawnSync } from 'node:child_process';
import { copyFileSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { PhotoTruth } from '../../samples/render/truth-file';
import { goodPhotos, photosAbsent, placeOf, whySkipped } from '../photos/shared-photos';
import { readingsSchema } from '../support/readings-schema';
import { isLongRun } from '../support/long-run';

const program = path.resolve('dist/evendial.cjs');
const samplesFolder = path.resolve('samples/photos');
const folder = mkdtempSync(path.join(tmpdir(), 'evendial-decoders-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

// Only the dynamic linker of glibc tells which libraries a process loads.
const report = process.report?.getReport() as { header?: { glibcVersionRuntime?: string } } | undefined;
const noLinkerLog = report?.header?.glibcVersionRuntime === undefined;
const whyNoLog = noLinkerLog ? ' (skipped: only the glibc linker writes which libraries were loaded)' : '';

type Corners = readonly (readonly [number, number])[];

interface Shown {
  readonly file: string;
  readonly encoding: 'profile' | 'linear';
  readonly corners: Corners;
}

/** A series file beside its photos, one trial a photo. */
function writeSeries(name: string, widthMm: number, heightMm: number, shown: readonly Shown[]): string {
  const trials = shown.map(({ file, encoding, corners }) => ({
    name: file,
    photos: [{ file, encoding }],
    light: 'unknown',
    corners: { window: corners },
  }));
  const windows = [{ name: 'window', widthMm, heightMm, print: 'dark' }];
  const place = path.join(folder, `${name}.json`);
  const series = { format: 'evendial-series', version: 1, viewingDistanceMm: 500, room: 'dark', windows, trials };
  writeFileSync(place, JSON.stringify(series));
  return place;
}

interface Run {
  readonly code: number | null;
  /** The document without its timings, which differ from run to run. */
  readonly document: string;
  readonly told: string;
  /** For each decoding child the libraries that it loaded, as the dynamic linker wrote them down; empty without glibc. */
  readonly childrenLoaded: readonly (readonly string[])[];
}

function librariesIn(log: string): string[] {
  const places = [...log.matchAll(/file=(.+?) \[\d+\]; {2}generating link map/g)].map((match) => match[1]);
  return places.map((place) => path.basename(place));
}

let runs = 0;
/** Runs the bundled command line over a series, with the native decoder or the one named. */
function measure(series: string, decoder?: 'wasm'): Run {
  const logs = path.join(folder, `linker-${++runs}`);
  mkdirSync(logs);
  const env: NodeJS.ProcessEnv = {
    ...process.env,
    INIT_CWD: '',
    LD_DEBUG: 'files',
    LD_DEBUG_OUTPUT: path.join(logs, 'log'),
  };
  delete env['EVENDIAL_DECODER'];
  if (decoder) env['EVENDIAL_DECODER'] = decoder;
  const done = spawnSync(process.execPath, [program, 'measure', '--series', series, '--json'], {
    env,
    encoding: 'utf8',
  });
  // The parent writes pictures with the same library: only its children decode.
  const children = readdirSync(logs).filter((name) => name !== `log.${done.pid}`);
  return {
    code: done.status,
    document: done.stdout.replace(/"timingMs": \{[^}]*\}/g, '"timingMs": {"decode": 0, "measure": 0}'),
    told: done.stderr,
    childrenLoaded: children.map((name) => librariesIn(readFileSync(path.join(logs, name), 'utf8'))),
  };
}

interface ThreeRuns {
  readonly native: Run;
  readonly again: Run;
  readonly wasm: Run;
}

/** Native, native once more, WebAssembly; the second run measures the series `repeat`, or is the first. */
function threeRuns(series: string, repeat: string | null): ThreeRuns {
  const native = measure(series);
  return { native, again: repeat ? measure(repeat) : native, wasm: measure(series, 'wasm') };
}

type Entry = ReturnType<typeof readingsSchema.parse>['readings'][number];
const entriesOf = ({ document }: Run): Entry[] => readingsSchema.parse(JSON.parse(document)).readings;
const formatsOf = (run: Run): string[] =>
  entriesOf(run).map((entry) =>
    'photos' in entry ? `${entry.photos[0].format} ${entry.photos[0].bitDepth}` : entry.error.code,
  );
const scoresOf = (run: Run): (number | null)[] =>
  entriesOf(run).map((entry) => ('evenness' in entry ? entry.evenness.score.value : null));

function expectSame(one: Run, other: Run): void {
  expect(other.code).toBe(one.code);
  expect(other.told).toBe(one.told);
  expect(other.document).toBe(one.document);
}

/** The native library is loaded by every child of a native run, and by none of a WebAssembly run, which yet gives figures. */
function expectOwnBuilds({ native, wasm }: ThreeRuns): void {
  const hasNative = (libraries: readonly string[]): boolean => libraries.some((name) => name.startsWith('libvips'));
  const hasAny = (libraries: readonly string[]): boolean => libraries.some((name) => name.startsWith('libc.so'));
  for (const { childrenLoaded } of [native, wasm]) {
    expect(childrenLoaded.length).toBeGreaterThan(0);
    expect(childrenLoaded.filter((libraries) => !hasAny(libraries))).toEqual([]);
  }
  expect(native.childrenLoaded.filter((libraries) => !hasNative(libraries))).toEqual([]);
  expect(wasm.childrenLoaded.filter(hasNative)).toEqual([]);
}

describe('sample photos through the command line', () => {
  /** So many of the photos are measured twice. */
  const repeated = 2;
  let three: ThreeRuns;

  beforeAll(async () => {
    const sample = (file: string, encoding: Shown['encoding'], stored = file): Shown => {
      const truth = JSON.parse(readFileSync(path.join(samplesFolder, `${file}.truth.json`), 'utf8')) as PhotoTruth;
      if (stored === file) copyFileSync(path.join(samplesFolder, file), path.join(folder, file));
      return { file: stored, encoding, corners: truth.windows[0].cornersPx };
    };
    const diffuser = path.join(samplesFolder, 't60-warm-white-diffuser.jpg');
    const again = sharp(diffuser).keepMetadata();
    writeFileSync(path.join(folder, 'again.webp'), await again.clone().webp({ quality: 92 }).toBuffer());
    writeFileSync(path.join(folder, 'again.avif'), await again.clone().avif({ quality: 80, effort: 2 }).toBuffer());
    const shown = [
      sample('t60-warm-white-diffuser.jpg', 'profile'),
      sample('t60-filament-linear.png', 'linear'),
      sample('t60-wide-colour.jpg', 'profile'),
      sample('t60-warm-white-diffuser-linear.tif', 'linear'),
      sample('t60-warm-white-diffuser.jpg', 'profile', 'again.webp'),
      sample('t60-warm-white-diffuser.jpg', 'profile', 'again.avif'),
    ];
    // Half as wide as they are: cells are counted in mm, and what is compared is how the files are decoded.
    three = threeRuns(writeSeries('samples', 46, 9, shown), writeSeries('begun', 46, 9, shown.slice(0, repeated)));
  });

  it('[CL11] every kind of file gives its score', () => {
    expect(three.native).toMatchObject({ code: 0, told: '' });
    expect(formatsOf(three.native)).toEqual(['jpeg 8', 'png 16', 'jpeg 8', 'tiff 16', 'webp 8', 'avif 8']);
    const scores = scoresOf(three.native);
    expect(scores).not.toContain(null);
    // The two re-encodings have lost detail of their own, and so are not the JPEG over again.
    expect(new Set(scores).size).toBe(scores.length);
  });

  it('[CL11] the same photos give the same readings in every run, whatever follows them', () => {
    expect(entriesOf(three.again)).toHaveLength(repeated);
    expect(JSON.stringify(entriesOf(three.again))).toBe(JSON.stringify(entriesOf(three.native).slice(0, repeated)));
  });

  it('[PX11] the native and the WebAssembly decoder give the same document', () =>
    expectSame(three.native, three.wasm));

  it.skipIf(noLinkerLog)(`[PX11] each run decoded with the build that was asked for${whyNoLog}`, () =>
    expectOwnBuilds(three),
  );
});

describe.skipIf(photosAbsent)(`real photos through the command line${whySkipped}`, () => {
  /** The lit windows but the largest, and one or two small photos of each other kind of file; in a short run one of each kind. */
  const small = goodPhotos.filter(({ file, kind, expected }) => {
    const [width, height] = expected.size_after_orientation;
    if (kind === 'backlit') return width * height < 5e6;
    return file.endsWith('.webp') || file.endsWith('500ms.tif') || file.includes('CMYK');
  });
  const kindOf = ({ file, kind }: (typeof small)[number]): string => `${kind} ${path.extname(file)}`;
  const chosen = small.filter((photo, i) => isLongRun || small.findIndex((one) => kindOf(one) === kindOf(photo)) === i);
  let three: ThreeRuns;

  beforeAll(() => {
    const shown = chosen.map((photo): Shown => {
      const file = path.basename(photo.file);
      copyFileSync(placeOf(photo), path.join(folder, file));
      const [width, height] = photo.expected.size_after_orientation;
      const [left, top, right, bottom] = [0.2 * width, 0.3 * height, 0.8 * width, 0.7 * height];
      const corners: Corners = [
        [left, top],
        [right, top],
        [right, bottom],
        [left, bottom],
      ];
      return { file, encoding: 'profile', corners };
    });
    const series = writeSeries('real', 30, 15, shown);
    three = threeRuns(series, isLongRun ? series : null);
  });

  it('[CL11] the photos are read, and some of them scored', () => {
    expect(three.native.told).toBe('');
    expect(new Set(formatsOf(three.native))).toEqual(new Set(['jpeg 8', 'png 8', 'tiff 8', 'webp 8']));
    expect(scoresOf(three.native).filter((score) => score !== null).length).toBeGreaterThanOrEqual(isLongRun ? 3 : 1);
  });

  it.skipIf(!isLongRun)('[CL11] the same photos give the same document in every run (in the long run only)', () =>
    expectSame(three.native, three.again),
  );

  it('[PX11] the native and the WebAssembly decoder give the same document', () =>
    expectSame(three.native, three.wasm));

  it.skipIf(noLinkerLog)(`[PX11] each run decoded with the build that was asked for${whyNoLog}`, () =>
    expectOwnBuilds(three),
  );
});
