import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { runPlace } from '../../../core/node/cli/place';
import type { PlaceDocument } from '../../../core/contract/place-advice';
import { mapText, readingsText } from '../../support/mapped-readings';
import { runCommand } from '../../support/run-command';

let folder = '';
const run = (...words: string[]) => runCommand(runPlace, words, folder);
const lampAt =
  (xMm: number) =>
  (x: number, y: number): number =>
    Math.pow(1 + ((x - xMm) ** 2 + (y - 6) ** 2) / 100, -2) + 0.1;

beforeAll(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'evendial-place-'));
  writeFileSync(path.join(folder, 'left.csv'), mapText(30, 12, lampAt(7)));
  writeFileSync(path.join(folder, 'right.csv'), mapText(30, 12, lampAt(23)));
  writeFileSync(
    path.join(folder, 'dim.csv'),
    mapText(30, 12, (x, y) => lampAt(23)(x, y) / 3),
  );
  const readings = [
    { name: 'left', score: 35, map: 'left.csv', spots: [] },
    { name: 'right', score: 35, map: 'right.csv', spots: [] },
    { name: 'dim', score: 35, map: 'dim.csv', spots: [] },
    { name: 'calm', score: 98, map: 'left.csv' },
  ];
  writeFileSync(path.join(folder, 'readings.json'), readingsText(readings));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('evendial place', () => {
  it('[PL6] forecasts a move, and writes the light', async () => {
    const { code, out } = await run('--reading', 'readings.json#left', '--move', '8,0,0', '--maps', 'maps', '--json');
    const { fit, predicted } = JSON.parse(out) as PlaceDocument;
    expect(code).toBe(0);
    expect(fit?.lamps[0].positionMm[0]).toBeWithin(7, 0.7);
    expect(predicted?.map).toBe('maps/left.predicted-luminance.csv');
    expect(readFileSync(path.join(folder, 'maps/left.predicted-luminance.csv'), 'utf8')).toMatch(
      /px_per_mm=2 .*unit=relative/,
    );
  });

  it('[PL6] adds lamps that were lit one at a time', async () => {
    const lamps = ['--single-lamp', 'readings.json#left', '--single-lamp', 'readings.json#right'];
    const { singleLamps, predicted } = JSON.parse((await run(...lamps, '--json')).out) as PlaceDocument;
    expect(singleLamps?.bestRatios[1].value).toBeWithin(1, 0.05);
    expect((await run(...lamps, '--ratio', '1:0.5')).out).toMatch(
      / {2}left +current unchanged; best unchanged\n {2}right +current x 0\.50; best may stay \(x 1\.\d+ ± 0\.\d+\)/,
    );
    const { out } = await run(...lamps);
    expect(out).toMatch(/ {2}left +current unchanged\n {2}right +current may stay \(x 1\.\d+ ± 0\.\d+\)\n/);
    expect(out).not.toMatch(/± 0(?!\.)|At the best/);
    expect(predicted?.evenness.value).toBeGreaterThan(50);
  });

  it('[PL6] tells what a current has to become where it cannot stay', async () => {
    // A third of the light of its fellow: the sum is most even at three times its current.
    const { out } = await run('--single-lamp', 'readings.json#left', '--single-lamp', 'readings.json#dim');
    expect(out).toMatch(/ {2}dim +current x 3 ± 2\n/);
  });

  it('[PL6] refuses with 5, and tells what is wrong with the words', async () => {
    expect(await run('--reading', 'readings.json#calm', '--move', '1,0,0')).toMatchObject({
      code: 5,
      out: expect.stringMatching(/Leave the lamps/),
    });
    expect(await run('--single-lamp', 'readings.json#left')).toMatchObject({ code: 5 });
    for (const [words, what] of [
      [['--reading', 'readings.json#left'], '--move'],
      [['--move', '1,0,0'], '--reading'],
      [['--reading', 'readings.json#left', '--move', '1,0'], '--move'],
      [['--reading', 'readings.json#left', '--tilt', '80,0'], '--tilt'],
      [['--reading', 'readings.json#left', '--search', '1,0,0,1,5,9'], '--search'],
      [['--reading', 'readings.json#left', '--lamp', '3', '--move', '1,0,0'], '--lamp'],
      [['--single-lamp', 'a.json', '--move', '1,0,0'], '--move'],
      [['--single-lamp', 'a.json', '--single-lamp', 'b.json', '--ratio', '1'], '--ratio'],
    ] as const) {
      expect(await run(...words)).toMatchObject({ code: 2, err: expect.stringContaining(what) });
    }
  });
});
