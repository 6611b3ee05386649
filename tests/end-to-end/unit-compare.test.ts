import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { ComparisonDocument } from '../../core/contract/comparison';
import { runCompare } from '../../core/node/cli/compare';
import { runMeasure } from '../../core/node/cli/measure';
import { runUnit } from '../../core/node/cli/unit/unit';
import type { Shell } from '../../core/node/cli/shell';
import { runCommand } from '../support/run-command';
import { scaleCorners, scalePhoto } from '../support/scale-photo';

const folder = mkdtempSync(path.join(tmpdir(), 'evendial unit compare '));
const corners = scaleCorners.map((point) => point.join(',')).join(' ');
type Command = (words: readonly string[], shell: Shell) => Promise<number>;

async function json<T>(command: Command, ...words: string[]): Promise<T> {
  const { code, out, err } = await runCommand(command, words, folder);
  expect([code, err]).toEqual([0, '']);
  return JSON.parse(out) as T;
}
const unit = (...words: string[]): Promise<unknown> => json(runUnit, ...words, '--book', 'book', '--json');

beforeAll(async () => {
  for (const [file, peak] of [
    ['filament', 20],
    ['bare', 90],
    ['paper', 50],
  ] as const)
    writeFileSync(path.join(folder, `${file}.png`), await scalePhoto(peak));
  await unit('new', 'T-60');
  await unit('add-window', 'T-60', 'scale', '--size', '46x9', '--print', 'none');
  await unit('set', 'T-60', 'photography.room=dark');
  await unit('add-photo', 'T-60', 'filament.png', '--role', 'reference', '--corners', corners);
  for (const trial of ['bare', 'paper']) {
    await unit('add-trial', 'T-60', trial, '--light', 'warm-white');
    await unit('add-photo', 'T-60', `${trial}.png`, '--role', `trial:${trial}`, '--corners', corners);
  }
  await unit('set', 'T-60', 'trials[bare].lamps[left].positionMm=11.5,4.5,4');
  await unit('set', 'T-60', 'trials[paper].lamps[left].positionMm=12.5,4.5,4', 'trials[paper].lamps[left].type=wide');
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('evendial compare --unit', () => {
  it('[CL20] puts the trials of a unit in order, as those of a series, and keeps nothing', async () => {
    const before = await unit('show', 'T-60');
    const document = await json<ComparisonDocument>(runCompare, '--unit', 't-60', '--book', 'book', '--json');
    expect(document.ranking.evenness).toEqual([['paper'], ['bare']]);
    expect(document.pairs.length).toBeGreaterThan(0);
    expect(await unit('show', 'T-60')).toEqual(before);
    const { out } = await runCommand(runCompare, ['--unit', 'T-60', '--book', 'book'], folder);
    // What of the lamps differs, in nothing else.
    expect(out).toMatch(/left.*x mm/s);
  }, 180_000);

  it('[CL20] says which unit is not there', async () => {
    const { code, err } = await runCommand(runCompare, ['--unit', 'T-61', '--book', 'book'], folder);
    expect(code).toBe(2);
    expect(err).toContain('has no unit "T-61"');
  });
});

describe('several photos of one trial', () => {
  it('[BK13] that are close-ups of its windows are all measured, each with the reference of its window', async () => {
    await unit('new', 'Close');
    for (const [window, filament, led] of [
      ['scale', 'filament', 'paper'],
      ['meter', 'paper', 'bare'],
    ] as const) {
      await unit('add-window', 'Close', window, '--size', '46x9', '--print', 'none');
      if (window === 'scale') await unit('add-trial', 'Close', 'LEDs', '--light', 'warm-white');
      const place = ['--corners', corners, '--window', window];
      await unit('add-photo', 'Close', `${filament}.png`, '--role', 'reference', ...place);
      await unit('add-photo', 'Close', `${led}.png`, '--role', 'trial:LEDs', ...place);
    }
    const { readings } = await json<ComparisonDocument>(runCompare, '--unit', 'Close', '--book', 'book', '--json');
    const shown = readings.map(
      (entry) => 'window' in entry && [entry.window, entry.evenness.toReference.value !== null],
    );
    expect(shown).toEqual([
      ['scale', true],
      ['meter', true],
    ]);
  }, 180_000);

  it('[BR10] of different exposure times are merged as by measure --series; of one, the last counts', async () => {
    const set = path.resolve('samples/sets');
    const photos = [1, 2, 3, 4, 5].map((i) => path.join(set, 'photos', `bracket-${i}.jpg`));
    const place = '133.545,113.137 868.78,115.064 868.939,259.354 132.387,256.72';
    await unit('new', 'Bracket');
    await unit('add-window', 'Bracket', 'scale', '--size', '92x18', '--print', 'dark');
    await unit('set', 'Bracket', 'photography.room=dark');
    await unit('add-trial', 'Bracket', 'Bare', '--light', 'warm-white');
    await unit('add-photo', 'Bracket', ...photos, '--role', 'trial:Bare', '--corners', place);
    type Read = Pick<ComparisonDocument, 'readings'>;
    const {
      readings: [merged],
    } = (await unit('measure', 'Bracket')) as Read;
    const {
      readings: [series],
    } = await json<Read>(runMeasure, '--series', path.join(set, 'bracket.series.json'), '--json');
    const figuresOf = (entry: Read['readings'][number]): unknown[] =>
      'evenness' in entry ? [entry.photos.length, entry.evenness, entry.gates.map(({ code }) => code)] : [];
    expect(figuresOf(merged)[0]).toBe(5);
    expect(figuresOf(merged)).toEqual(figuresOf(series));

    await unit('add-photo', 'T-60', 'filament.png', '--role', 'trial:bare', '--corners', corners);
    const { readings } = (await unit('measure', 'T-60')) as Read;
    const again = readings.find((entry) => 'name' in entry && entry.name === 'bare');
    // The glow of the filament's photo, and of it alone.
    expect(again && 'photos' in again && again.photos).toHaveLength(1);
    expect(again && 'evenness' in again && again.evenness.toReference.value).toBe(0);
  }, 300_000);
});
