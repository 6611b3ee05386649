import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { runNext } from '../../../core/node/cli/next';
import type { NextDocument } from '../../../core/contract/next-advice';
import { spots } from '../../support/drawn-maps';
import { mapText, readingsText } from '../../support/mapped-readings';
import { runCommand } from '../../support/run-command';

let folder = '';
const run = (...words: string[]) => runCommand(runNext, words, folder);

beforeAll(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'evendial-next-'));
  writeFileSync(path.join(folder, 'spot.csv'), mapText(24, 12, spots({ xMm: 9, yMm: 6, peak: 2.5, sigmaMm: 3 })));
  const hot = { kind: 'hot', xMm: 9, yMm: 6, ratioToGlow: 2.4 };
  const readings = [
    { name: 'spot', score: 50, map: 'spot.csv', spots: [hot] },
    { name: 'calm', score: 98, map: 'spot.csv' },
  ];
  writeFileSync(path.join(folder, 'readings.json'), readingsText(readings));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('evendial next', () => {
  it('[NX3] gives the suggestions as words and as JSON', async () => {
    const json = await run('--reading', 'readings.json#spot', '--json');
    const { suggestions } = JSON.parse(json.out) as NextDocument;
    expect(json.code).toBe(0);
    expect(suggestions.at(-1)?.action).toBe('shade');
    const { out } = await run('--reading', 'readings.json#spot');
    expect(out.match(/caution {2}/g)).toHaveLength(suggestions.length);
    expect(out).toMatch(/^ {2}! Unplug the unit[^\n]*\n\n {2}1\. /);
    expect(out.match(/Unplug/g)).toHaveLength(1);
    expect((await run('--reading', 'readings.json#calm')).out).toMatch(/No suggestion: even to a careful eye/);
  });

  it('[NX3] tells what is wrong with the words', async () => {
    expect(await run('--json')).toMatchObject({ code: 2, err: expect.stringContaining('--reading') });
    expect(await run('photo.jpg')).toMatchObject({ code: 2, err: expect.stringContaining('photo.jpg') });
    expect(await run('--reading', 'none.json')).toMatchObject({ code: 2, err: expect.stringContaining('none.json') });
  });
});
