import { spawn, spawnSync } from 'node:child_process';
import {
  closeSync,
  existsSync,
  mkdtempSync,
  openSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { csvHeader } from '../../core/node/cli/csv';
import { runMeasure } from '../../core/node/cli/measure';
import { readingsSchema } from '../support/readings-schema';
import { runCommand } from '../support/run-command';

const home = fileURLToPath(new URL('../..', import.meta.url));
const program = path.join(home, 'dist', 'evendial.cjs');
const corners = '100,60 1020,60 1020,240 100,240';
const described = ['--corners', corners, '--size', '46x9', '--room', 'dark', '--light', 'warm-white'];
const oddNames = ['with blank.jpg', 'glow 😀 é.jpg', 'two\nlines.jpg', '-dash.jpg'];

let bench: string;

/** A lit scale drawn on the spot: 46 x 9 mm, so that it is measured soon, at 20 pixels a mm, brighter in the middle, with black strokes and a red one. */
async function litScale(width: number, height: number, scale: number): Promise<Buffer> {
  const pixels = Buffer.alloc(width * height * 3);
  for (let row = 0; row < height; row++) {
    for (let column = 0; column < width; column++) {
      const [x, y] = [column / scale - 100, row / scale - 60];
      const inside = x >= 0 && y >= 0 && x < 920 && y < 180;
      const stroke = x % 90 > 40 && x % 90 < 46 && y > 40 && y < 90;
      const red = x > 700 && x < 760 && y > 120 && y < 132;
      const light = inside ? 150 + 70 * Math.exp(-((x - 460) ** 2) / 60000) : 2;
      const factors = red ? [0.85, 0.12, 0.1] : stroke ? [0.12, 0.1, 0.1] : [1, 0.86, 0.62];
      for (let k = 0; k < 3; k++) {
        const grain = ((column * 7 + row * 13 + k * 5) % 5) - 2;
        pixels[3 * (row * width + column) + k] = Math.max(0, Math.round(light * factors[k] + grain));
      }
    }
  }
  const exif = { IFD2: { ExposureTime: '1/30', FNumber: '4/1', ISOSpeedRatings: '400', WhiteBalance: '1' } };
  return sharp(pixels, { raw: { width, height, channels: 3 } })
    .jpeg({ quality: 95, chromaSubsampling: '4:4:4' })
    .withExif(exif)
    .toBuffer();
}

interface Run {
  readonly code: number | null;
  readonly out: string;
  readonly told: string;
}

function run(words: readonly string[], environment: NodeJS.ProcessEnv = {}, folder = bench): Run {
  const env = { ...process.env, INIT_CWD: '', ...environment };
  const done = spawnSync(process.execPath, [program, ...words], { cwd: folder, env, encoding: 'utf8' });
  return { code: done.status, out: done.stdout, told: done.stderr };
}

/** The same command in this process, where starting a program is not the point. */
async function measureHere(words: readonly string[]): Promise<Run> {
  const { code, out, err } = await runCommand(runMeasure, words, bench);
  return { code, out, told: err };
}

function withoutTiming(text: string): string {
  return text.replace(/"timingMs": \{[^}]*\}/g, '');
}

beforeAll(async () => {
  bench = mkdtempSync(path.join(tmpdir(), 'evendial cli '));
  const photo = await litScale(1120, 300, 1);
  for (const name of ['dial.jpg', ...oddNames]) writeFileSync(path.join(bench, name), photo);
  writeFileSync(path.join(bench, 'broken.jpg'), photo.subarray(0, 300));
  writeFileSync(path.join(bench, 'text.jpg'), 'this is no photo');
  writeFileSync(path.join(bench, 'large.jpg'), await litScale(4480, 3000, 4));
});

afterAll(() => rmSync(bench, { recursive: true }));

describe('evendial measure --json', () => {
  let first: Run;
  beforeAll(() => {
    first = run(['measure', 'dial.jpg', ...described, '--json']);
  });

  it('[CL11] prints one document of the contract, key by key, and nothing else', () => {
    const { code, out, told } = first;
    expect({ code, told }).toEqual({ code: 0, told: '' });
    const document = readingsSchema.parse(JSON.parse(out));
    const [reading] = document.readings;
    if (!('evenness' in reading)) throw new Error('the photo was not read');
    expect(reading).toMatchObject({
      name: 'dial',
      photos: [{ file: 'dial.jpg', widthPx: 1120, heightPx: 300, camera: { fNumber: 4, iso: 400 } }],
      outline: { cornersFrom: 'given', widthMm: 46, heightMm: 9, sizeKnown: true },
    });
    expect(reading.evenness.score.value).toBeGreaterThan(20);
  });

  it('[CL5] gives the same document in another process, save the timings', async () => {
    const second = (await measureHere(['dial.jpg', ...described, '--json'])).out;
    expect(withoutTiming(first.out)).toBe(withoutTiming(second));
  });

  it('[CL4] puts what cannot be read at its place, measures the rest, and returns 3', () => {
    const photos = ['dial.jpg', 'gone.jpg', 'text.jpg', 'broken.jpg', 'with blank.jpg'];
    const { code, out, told } = run(['measure', ...photos, ...described, '--json']);
    const { readings } = readingsSchema.parse(JSON.parse(out));
    expect(readings.map((entry) => ('error' in entry ? entry.file : entry.name))).toEqual([
      'dial',
      'gone.jpg',
      'text.jpg',
      'broken.jpg',
      'with blank',
    ]);
    expect(readings.map((entry) => 'error' in entry)).toEqual([false, true, true, true, false]);
    expect(told).toContain('gone.jpg');
    expect(code).toBe(3);
  });

  it('[CL4] returns 4 for corners that cross, above a missing photo', async () => {
    const crossing = '100,60 1020,240 1020,60 100,240';
    const { code, out } = await measureHere([
      'dial.jpg',
      'gone.jpg',
      '--corners',
      crossing,
      '--size',
      '46x9',
      '--json',
    ]);
    expect(code).toBe(4);
    expect(readingsSchema.parse(JSON.parse(out)).readings.every((entry) => 'error' in entry)).toBe(true);
  });

  it('[CL4] returns 5 with --strict when a gate refuses, and 0 without', async () => {
    const words = ['dial.jpg', '--corners', corners, '--size', '46x9', '--room', 'unknown', '--json'];
    const strict = await measureHere([...words, '--strict']);
    const [reading] = readingsSchema.parse(JSON.parse(strict.out)).readings;
    expect('gates' in reading && reading.gates.some((gate) => gate.level === 'refuse')).toBe(true);
    expect([strict.code, (await measureHere(words)).code]).toEqual([5, 0]);
  });

  it('[CL1] takes odd file names as they are', () => {
    const { code, out } = run(['measure', ...described, '--json', '--', ...oddNames]);
    const { readings } = readingsSchema.parse(JSON.parse(out));
    expect(readings.map((entry) => ('photos' in entry ? entry.photos[0].file : ''))).toEqual(oddNames);
    expect(code).toBe(0);
  });

  it('[CL3] reads relative paths from the folder of npm run, for photos and maps', () => {
    const { code, out } = run(
      ['measure', 'dial.jpg', ...described, '--json', '--maps', 'from npm'],
      { INIT_CWD: bench },
      home,
    );
    const [reading] = readingsSchema.parse(JSON.parse(out)).readings;
    expect(code).toBe(0);
    expect('maps' in reading && reading.maps?.glowLuminance).toBe('from npm/dial.glow-luminance.csv');
    expect(existsSync(path.join(bench, 'from npm', 'dial.print-mask.png'))).toBe(true);
  });
});

describe('evendial measure, other outputs', () => {
  it('[MP2] writes maps and pictures that hold what the contract says', async () => {
    expect((await measureHere(['dial.jpg', ...described, '--maps', 'maps'])).code).toBe(0);
    const folder = path.join(bench, 'maps');
    expect(readdirSync(folder).sort()).toEqual(
      [
        'chromaticity.csv',
        'glow-luminance.csv',
        'chromaticity.png',
        'luminance.png',
        'print-mask.png',
        'unevenness.png',
        'window.png',
      ]
        .map((ending) => `dial.${ending}`)
        .sort(),
    );
    const [head, ...rows] = readFileSync(path.join(folder, 'dial.glow-luminance.csv'), 'utf8').trimEnd().split('\n');
    expect(head).toBe(
      '# format=evendial-map version=1 px_per_mm=4 width_mm=46 height_mm=9 unit=relative exposure_normalised=1',
    );
    expect(rows).toHaveLength(36);
    expect(new Set(rows.map((row) => row.split(',').length))).toEqual(new Set([184]));
    const mask = await sharp(path.join(folder, 'dial.print-mask.png')).metadata();
    expect([mask.width, mask.height]).toEqual([460, 90]);
  });

  it('[CL8] prints a table that leads with evenness and colour, and tells at the end what was not compared', async () => {
    const { code, out } = await measureHere(['dial.jpg', ...described]);
    expect(code).toBe(0);
    const order = ['Evenness ', 'Colour ', 'Spots', 'Not compared: '].map((word) => out.indexOf(`  ${word}`));
    expect(order.every((at, i) => at > (order[i - 1] ?? 0))).toBe(true);
    expect(out).not.toMatch(/cd\/m/);
  });

  it('[CL7] prints a row a photo with --csv', async () => {
    const { code, out } = await measureHere(['dial.jpg', 'gone.jpg', ...described, '--csv']);
    const [head, first, second] = out.split('\n');
    expect(head.split(',')).toEqual(csvHeader);
    expect([first.startsWith('dial,window,dial.jpg,'), second.startsWith(',,gone.jpg,')]).toEqual([true, true]);
    expect(code).toBe(3);
  });

  it('[SE4] measures a series from its own folder, the reference apart', async () => {
    const placed = { scale: [[100, 60], [1020, 60], [1020, 240], [100, 240]] }; // prettier-ignore
    const series = {
      format: 'evendial-series',
      version: 1,
      room: 'dark',
      windows: [{ name: 'scale', widthMm: 46, heightMm: 9, print: 'dark' }],
      reference: { photos: ['dial.jpg'], corners: placed },
      trials: [
        { name: 'tape', photos: ['with blank.jpg'], corners: placed },
        { name: 'lost', photos: ['gone.jpg'], corners: placed },
      ],
    };
    writeFileSync(path.join(bench, 's.series.json'), JSON.stringify(series));
    const { code, out } = run(['measure', '--series', path.join(bench, 's.series.json'), '--json'], {}, home);
    const document = readingsSchema.parse(JSON.parse(out));
    expect(document.reference).toHaveLength(1);
    expect(document.readings.map((entry) => ('error' in entry ? entry.file : entry.name))).toEqual([
      'tape',
      'gone.jpg',
    ]);
    expect(code).toBe(3);
    const table = (await measureHere(['--series', path.join(bench, 's.series.json')])).out;
    expect(table).toMatch(/── lost ─+\n {2}gone\.jpg\n {2}■ not measured/);
  });
});

describe('wrong usage', () => {
  const wrong: [string[], RegExp][] = [
    [['measure', 'dial.jpg', '--corners', '1,2 3,x 5,6 7,8'], /point 2 \(top-right\): y/],
    [['measure', 'dial.jpg', ...described, '--colour', 'red'], /--colour/],
    [['measure', 'dial.jpg', ...described, '--json', '--csv'], /--json and --csv/],
    [['measure', '--json'], /no photo is named/],
    [['measure', 'dial.jpg', ...described, '--reference-corners', '1,2 3,4 5,6 7,8'], /without --reference/],
    [['measure', '--series', 'gone.json', '--json'], /gone\.json/],
    [['compare', '--series', 'no.series.json'], /no\.series\.json cannot be read/],
    [['start', 'now'], /start takes no "now"/],
    [['measur'], /Did you mean 'evendial measure'/],
  ];
  it.each(wrong)('[CL4] %j returns 2, says where, and prints no document', (words, place) => {
    const { code, out, told } = run(words);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(told).toMatch(place);
  });
});

describe('help', () => {
  it('[CL1] is printed without a command, by help, and by --help; --version gives the version', () => {
    const overview = run([]);
    expect(overview).toMatchObject({ code: 0, out: expect.stringContaining('evendial measure') });
    expect(run(['help'])).toEqual(overview);
    expect(run(['help', 'measure']).out).toContain('--viewing-distance');
    expect(run(['measure', '--help']).out).toBe(run(['help', 'measure']).out);
    const { version } = JSON.parse(readFileSync(path.join(home, 'package.json'), 'utf8')) as { version: string };
    expect(run(['--version']).out).toBe(`${version}\n`);
  });
});

/** Processes that carry a mark in their environment: ours and what they started (Linux only). */
function markedProcesses(mark: string): string[] {
  return readdirSync('/proc').filter((id) => {
    if (!/^\d+$/.test(id)) return false;
    try {
      return readFileSync(`/proc/${id}/environ`, 'latin1').includes(mark);
    } catch (error) {
      // Ended meanwhile, or not ours to read.
      if (['ENOENT', 'EACCES', 'ESRCH', 'EPERM'].includes((error as NodeJS.ErrnoException).code ?? '')) return false;
      throw error;
    }
  });
}

describe('stopping', () => {
  it.skipIf(process.platform !== 'linux')(
    '[CL10] Ctrl-C returns 130 within a second and leaves no process and no file (needs /proc: Linux only)',
    async () => {
      const mark = `EVENDIAL_TEST_${process.pid}_${Date.now()}`;
      const scratch = mkdtempSync(path.join(tmpdir(), 'evendial-scratch-'));
      const photos = Array.from({ length: 24 }, () => 'large.jpg');
      const large = '400,240 4080,240 4080,960 400,960';
      const words = ['measure', ...photos, '--corners', large, '--size', '46x9', '--json', '--maps', 'stopped'];
      const env = { ...process.env, INIT_CWD: '', TMPDIR: scratch, [mark]: '1' };
      const child = spawn(process.execPath, [program, ...words], {
        cwd: bench,
        env,
        stdio: ['ignore', 'pipe', 'pipe'],
      });
      let out = '';
      child.stdout.on('data', (part: Buffer) => (out += part.toString()));
      // The decoder's folder tells that it is at work.
      await expect.poll(() => readdirSync(scratch).length, { timeout: 30_000 }).toBeGreaterThan(0);
      expect(child.exitCode).toBeNull();
      const asked = Date.now();
      const ended = new Promise((resolve) => child.on('exit', resolve));
      child.kill('SIGINT');
      expect(await ended).toBe(130);
      expect(Date.now() - asked).toBeLessThan(1000);
      expect(out).toBe('');
      await expect.poll(() => markedProcesses(mark), { timeout: 1000 }).toEqual([]);
      expect([readdirSync(scratch), existsSync(path.join(bench, 'stopped'))]).toEqual([[], false]);
      rmSync(scratch, { recursive: true });
    },
  );

  it.skipIf(!existsSync('/dev/full')).each(['measure gone.jpg --json', 'find gone.jpg', 'help'])(
    '[CL9] output that cannot be written is told in words: %s (needs /dev/full)',
    (line) => {
      const full = openSync('/dev/full', 'w');
      const done = spawnSync(process.execPath, [program, ...line.split(' ')], {
        cwd: bench,
        env: { ...process.env, INIT_CWD: '' },
        stdio: ['ignore', full, 'pipe'],
        encoding: 'utf8',
      });
      closeSync(full);
      expect(done.status).toBe(2);
      expect(done.stderr).toMatch(/^evendial: the output cannot be written: the disk is full\n.*room.*\n$/);
    },
  );

  it('[CL9] a reader that goes away is no defect', async () => {
    const child = spawn(process.execPath, [program, 'measure', 'dial.jpg', ...described, '--json'], {
      cwd: bench,
      env: { ...process.env, INIT_CWD: '' },
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    child.stdout.destroy();
    let told = '';
    child.stderr.on('data', (part: Buffer) => (told += part.toString()));
    expect([await new Promise((resolve) => child.on('close', resolve)), told]).toEqual([0, '']);
  });
});
