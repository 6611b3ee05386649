import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { assumedSizeCaution } from '../../../core/advice/assumed-size';
import { runShade } from '../../../core/node/cli/shade';
import type { ShadeDocument } from '../../../core/contract/shade-advice';
import { runCommand } from '../../support/run-command';
import { spots } from '../../support/drawn-maps';
import { mapText, readingsText } from '../../support/mapped-readings';

let folder = '';
const run = (...words: string[]) => runCommand(runShade, words, folder);

beforeAll(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'evendial-shade-'));
  mkdirSync(path.join(folder, 'maps'));
  writeFileSync(path.join(folder, 'maps/spot.csv'), mapText(24, 12, spots({ xMm: 9, yMm: 6, peak: 2.2, sigmaMm: 3 })));
  writeFileSync(path.join(folder, 'maps/even.csv'), mapText(24, 12, () => 1)); // prettier-ignore
  const readings = [
    { name: 'spot', score: 55, map: 'maps/spot.csv' },
    { name: 'assumed', score: 55, map: 'maps/spot.csv', sizeKnown: false },
    { name: 'even', score: 99, map: 'maps/even.csv' },
    { name: 'unmapped', score: 70, map: null },
    { name: 'clipped', score: null, map: 'maps/spot.csv' },
  ];
  writeFileSync(path.join(folder, 'readings.json'), readingsText(readings));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('evendial shade', () => {
  it('[AV9] writes the page and the transmission, and forecasts the worst score', async () => {
    const { code, out, err } = await run('--reading', 'readings.json#spot', '--gap', '1', '--out', 'a.pdf', '--json');
    expect([code, err]).toEqual([0, '']);
    const document = JSON.parse(out) as ShadeDocument;
    expect(document.evennessAfter.value).toBeGreaterThan(80);
    expect(document.evennessOnMarks.value).toBeGreaterThanOrEqual(document.evennessAfter.value!);
    expect(document.worstMount).toBe('aside');
    expect([document.transmissionMap, document.pitchMm, document.style]).toEqual([
      'a.transmission.csv',
      0.5,
      'halftone',
    ]);
    expect(document.cautions.join(' ')).toMatch(/Unplug/);
    expect(readFileSync(path.join(folder, 'a.pdf'), 'latin1')).toMatch(/^%PDF/);
    const csv = readFileSync(path.join(folder, 'a.transmission.csv'), 'utf8');
    expect(csv).toMatch(/^# format=evendial-map version=1 px_per_mm=2 width_mm=24 height_mm=12 unit=transmission/);
  });

  it('[AV10] says, on paper too, that an assumed size is to be measured first', async () => {
    const shade = (name: string) => run('--reading', `readings.json#${name}`, '--gap', '1', '--out', `${name}.svg`);
    expect((await shade('assumed')).out.replace(/\s+/g, ' ')).toContain(assumedSizeCaution);
    expect(readFileSync(path.join(folder, 'assumed.svg'), 'utf8')).toContain(assumedSizeCaution);
    expect((await shade('spot')).out).not.toContain('caliper');
    const paper = readFileSync(path.join(folder, 'spot.svg'), 'utf8');
    for (const said of [(await shade('spot')).out, paper]) {
      expect(said).toMatch(/on its marks/);
      expect(said).toMatch(/At worst +\d+ ± \d+, if it is 1 mm to one side/);
    }
    expect(paper).not.toContain('caliper');
    // What can hurt stands on the paper that goes to the bench.
    for (const words of ['Unplug', 'they char']) expect(paper).toContain(words);
  });

  it('[AV9] refuses with 5 and says what to do', async () => {
    const none = await run('--reading', 'readings.json#even', '--gap', '1', '--out', 'b.svg', '--json');
    expect([none.code, (JSON.parse(none.out) as ShadeDocument).refusal?.code]).toEqual([5, 'NO_SURE_GAIN']);
    const clipped = await run('--reading', 'readings.json#clipped', '--gap', '1', '--out', 'b.svg', '--json');
    expect([clipped.code, (JSON.parse(clipped.out) as ShadeDocument).refusal?.code]).toEqual([
      5,
      'SHADE_WITHOUT_SCORE',
    ]);
    const shape = await run('--reading', 'readings.json#spot', '--out', 'c.svg', '--style', 'contours');
    expect(shape.code).toBe(5);
    expect(shape.out).toMatch(/With the shade +\/\/\/\n/);
    expect(shape.out).not.toMatch(/At worst/);
    expect(readFileSync(path.join(folder, 'c.svg'), 'utf8')).toMatch(/^<svg xmlns/);
  });

  it('[AV9] tells what is wrong with the words', async () => {
    const unmapped = await run('--reading', 'readings.json#unmapped', '--gap', '1', '--out', 'd.pdf');
    expect([unmapped.code, unmapped.err]).toEqual([2, expect.stringContaining('--maps DIR')]);
    for (const [words, what] of [
      [['--gap', '1', '--out', 'd.pdf'], '--reading'],
      [['--reading', 'readings.json#spot', '--gap', '1'], '--out'],
      [['--reading', 'readings.json#spot', '--gap', '-1', '--out', 'd.pdf'], '--gap'],
      [['--reading', 'readings.json#spot', '--target', 'p99', '--out', 'd.pdf'], '--target'],
      [['--reading', 'readings.json#spot', '--out', 'd.txt'], '.pdf or .svg'],
      [['--reading', 'readings.json', '--out', 'd.pdf'], 'spot, assumed, even'],
    ] as const) {
      const { code, err } = await run(...words);
      expect([code, err]).toEqual([2, expect.stringContaining(what)]);
    }
  });
});
