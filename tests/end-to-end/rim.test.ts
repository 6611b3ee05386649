import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Corners, PhotoPoint } from '../../core/base/points';
import { homographyFromCorners, photoPointOf } from '../../core/window/homography';
import { cornersOfRim } from '../../core/window/rim-ellipse';
import type { PhotoTruth } from '../../samples/render/truth-file';

type Pair = readonly [number, number];
const folder = mkdtempSync(path.join(tmpdir(), 'evendial-rim-'));
const face = path.join(folder, 'face.png');
const faceCorners: readonly Pair[] = [
  [250, 160],
  [590, 160],
  [650, 500],
  [310, 500],
];
const measure = (...words: string[]) =>
  spawnSync(process.execPath, ['dist/evendial.cjs', 'measure', ...words], { encoding: 'utf8', timeout: 60_000 });
const textOf = (points: readonly PhotoPoint[]): string => points.map(({ column, row }) => `${column},${row}`).join(' ');

interface Document {
  readings: { outline: { kind: string; cornersFrom: string }; evenness: { score: { value: number | null } } }[];
}
const readingOf = (...words: string[]) => (JSON.parse(measure(...words, '--json').stdout) as Document).readings[0];

/** Points as read off a paint program, whole pixels, over the upper `share` of the rim. */
function rimOf(corners: readonly Pair[], count: number, share: number): PhotoPoint[] {
  const box = corners.map(([column, row]) => ({ column, row })) as unknown as Corners;
  const homography = homographyFromCorners(box, 2, 2);
  return Array.from({ length: count }, (_, i) => {
    const turn = Math.PI * (1.5 + 2 * share * ((i + 0.5) / count - 0.5));
    const { column, row } = photoPointOf(homography, { xMm: 1 + Math.cos(turn), yMm: 1 + Math.sin(turn) });
    return { column: Math.round(column), row: Math.round(row) };
  });
}

/** A round face, leaning as one seen from aside, its light falling off to the right, in a dark room. */
async function drawFace(): Promise<void> {
  const [width, height] = [900, 660];
  const codes = Buffer.alloc(3 * width * height, 5);
  for (let i = 0; i < width * height; i++) {
    const [x, y] = [(i % width) + 0.5, Math.floor(i / width) + 0.5];
    const v = (y - 330) / 170;
    const u = (x - 450 - 30 * v) / 170;
    const isMark = Math.abs(Math.hypot(u, v - 0.4) - 0.9) < 0.012 && v < 0 && Math.abs(u) < 0.7;
    const light = isMark ? 20 : 205 - 25 * u - 60 * Math.exp(-((u + 0.3) ** 2 + (v - 0.3) ** 2) / 0.05);
    if (Math.hypot(u, v) < 1) codes.set([light, 0.85 * light, 0.6 * light].map(Math.round), 3 * i);
  }
  await sharp(codes, { raw: { width, height, channels: 3 } })
    .png()
    .toFile(face);
}

beforeAll(drawFace);
afterAll(() => rmSync(folder, { recursive: true }));

describe('evendial measure --rim', () => {
  const words = [face, '--size', '38x38', '--print', 'dark', '--light', 'warm-white', '--room', 'dark'];

  it('[CL18, WN19] eight points on the rim of a leaning round face score within 0.5 of its true corners', () => {
    const byRim = readingOf(...words, '--rim', textOf(rimOf(faceCorners, 8, 1)));
    const corners = faceCorners.map((corner) => corner.join(',')).join(' ');
    const byCorners = readingOf(...words, '--corners', corners, '--outline', 'ellipse');
    expect(byRim.outline).toMatchObject({ kind: 'ellipse', cornersFrom: 'given' });
    expect(byCorners.evenness.score.value).toBeGreaterThan(0);
    expect(byRim.evenness.score.value!).toBeWithin(byCorners.evenness.score.value!, 0.5);
  });

  // The sample meter is covered below: only a series file can tell that, so the box goes in as corners.
  it('[WN19] the sample meter by ten points above its cover scores within 0.5 of its true corners', () => {
    const photo = path.resolve('samples/photos/m4-filament.jpg');
    const [meter] = (JSON.parse(readFileSync(`${photo}.truth.json`, 'utf8')) as PhotoTruth).windows;
    const scoreWith = (corners: readonly (readonly number[])[]): number => {
      const series = {
        format: 'evendial-series',
        version: 1,
        room: 'dark',
        windows: [{ name: 'meter', widthMm: 38, heightMm: 38, print: 'dark', outline: meter.outline }],
        trials: [{ name: 'filament', photos: [photo], light: 'filament', corners: { meter: corners } }],
      };
      const file = path.join(folder, 'meter.series.json');
      writeFileSync(file, JSON.stringify(series));
      return readingOf('--series', file).evenness.score.value!;
    };
    const box = cornersOfRim(rimOf(meter.cornersPx, 10, 0.6)).map(({ column, row }) => [column, row]);
    const ofTruth = scoreWith(meter.cornersPx);
    expect(ofTruth).toBeGreaterThan(0);
    expect(scoreWith(box)).toBeWithin(ofTruth, 0.5);
  });

  it('[CL18] with --corners, four points, a line or no number: exit 2 and no JSON, with the reason', () => {
    for (const [more, told] of [
      [['--rim', textOf(rimOf(faceCorners, 6, 1)), '--corners', '1,2 31,3 32,14 4,15'], '--corners and --rim'],
      [['--rim', '10,20 30,10 50,20 30,40'], '4 points'],
      [['--rim', '10,20 20,20 30,20 40,20 50,20'], 'straight line'],
      [['--rim', '10,20 30,10 50,20 x,40 20,35'], 'point 4'],
    ] as const) {
      const { status, stdout, stderr } = measure(...words, ...more, '--json');
      expect([status, stdout]).toEqual([2, '']);
      expect(stderr).toContain(told);
    }
  });
});
