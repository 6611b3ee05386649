import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { runLamps } from '../../../core/node/cli/lamps';
import { runCommand, type CommandEnd } from '../../support/run-command';

let folder: string;

beforeAll(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'evendial-advice-'));
  const colour = (uPrime: number | null, vPrime: number | null) => ({
    uPrime: uPrime === null ? { value: null, reason: 'red is clipped' } : { value: uPrime, plusMinus: 0.004 },
    vPrime: vPrime === null ? { value: null, reason: 'red is clipped' } : { value: vPrime, plusMinus: 0.002 },
  });
  const readings = [
    { name: 'filament', colour: colour(0.2896, 0.5381) },
    { name: 'clipped', colour: colour(null, null) },
    { name: 'first try', colour: colour(0.32, 0.545) },
  ];
  const document = { format: 'evendial-readings', version: 1, readings };
  writeFileSync(path.join(folder, 'r.json'), JSON.stringify(document));
  writeFileSync(path.join(folder, 'other.json'), JSON.stringify({ format: 'evendial-mix', version: 1 }));
  writeFileSync(path.join(folder, 'lamp.csv'), 'nm,power\n580,0\n590,1\n600,0\n');
  writeFileSync(path.join(folder, 'bad.csv'), 'nm,power\n580,0\n590,one\n');
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

const run = (...words: string[]): Promise<CommandEnd> => runCommand(runLamps, words, folder);

describe('evendial lamps', () => {
  it('[LF5] prints one document of families, own spectrum first, the same on every run', async () => {
    const words = ['--json', '--dye', 'none', '--pigment', '595,8', '--spectrum', 'lamp.csv'];
    const { code, out, err } = await run(...words);
    expect([code, err]).toEqual([0, '']);
    const document = JSON.parse(out) as { format: string; version: number; families: Record<string, unknown>[] };
    expect([document.format, document.version]).toEqual(['evendial-lamps', 1]);
    expect(document.families[0]['name']).toBe('lamp.csv');
    expect(Object.keys(document.families[0])).toEqual(['name', 'index', 'low', 'high', 'uPrime', 'vPrime', 'words']);
    expect((await run(...words)).out).toBe(out);
  });

  it('[LF5] the table keeps to 100 columns', async () => {
    const { code, out } = await run('--dye', 'r.json#filament', '--filament', '2450 K');
    expect(code).toBe(0);
    expect(out).toContain('narrow amber');
    expect(out.split('\n').filter((line) => line.length > 100)).toEqual([]);
  });

  it.each([
    [['--dye', 'r.json'], /holds 3 readings.*\n.*filament, clipped, first try/],
    [['--dye', 'r.json#nothing'], /0 readings named nothing/],
    [['--dye', 'r.json#clipped'], /clipped has no colour: red is clipped/],
    [['--dye', 'other.json'], /not a readings file: format/],
    [['--dye', 'lamp.csv'], /is not JSON/],
    [['--dye', 'missing.json'], /is not there/],
    [['--dye', '900'], /--dye is "900"/],
    [['--pigment', '595'], /--pigment is "595"/],
    [['--filament', '0'], /--filament is "0"/],
    [['--spectrum', 'bad.csv'], /bad\.csv, line 3: the value is "one"/],
    [['x.jpg'], /lamps takes no "x.jpg"/],
  ])('[LF5] %j is refused with what is wrong', async (words, message) => {
    const { code, out, err } = await run(...words);
    expect([code, out]).toEqual([2, '']);
    expect(err).toMatch(message);
  });
});
