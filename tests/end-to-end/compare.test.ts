import { execFile } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { ComparisonDocument } from '../../core/contract/comparison';
import { readSeries, type SeriesFile } from '../../core/contract/series';

const samples = path.resolve('samples');
const folder = mkdtempSync(path.join(tmpdir(), 'evendial-compare-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

interface Run {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

function run(...words: string[]): Promise<Run> {
  return new Promise((resolve) => {
    const options = { env: { ...process.env, INIT_CWD: folder }, maxBuffer: 1e8 };
    execFile(process.execPath, ['dist/evendial.cjs', 'compare', ...words], options, (error, out, err) => {
      resolve({ code: error === null ? 0 : Number(error.code), out, err });
    });
  });
}

/** Two tries of the sample scale, and whatever else is wrong with the file. */
function seriesFile(name: string, change: (file: SeriesFile) => void = () => undefined): string {
  const file = readSeries(readFileSync(path.join(samples, 't60.series.json'), 'utf8'), 't60');
  delete file.reference;
  file.trials = file.trials!.filter((_, i) => i === 1 || i === 4);
  for (const trial of file.trials)
    trial.photos = trial.photos.map(({ file: one }) => ({ file: path.join(samples, one) }));
  change(file);
  writeFileSync(path.join(folder, name), JSON.stringify(file));
  return name;
}

describe('evendial compare', () => {
  let given: Run;
  let document: ComparisonDocument;
  beforeAll(async () => {
    const lost = { file: 'lost.jpg' };
    const name = seriesFile('try.json', (file) => {
      file.trials![1].lamps = [{ name: 'left', positionMm: [22, 9, 20] }];
      file.trials!.push(
        { name: 'lost', photos: [lost], lampOff: { file: 'off.jpg' } },
        { name: 'lost too', photos: [lost] },
      );
    });
    given = await run('--series', name, '--json', '--maps', 'maps');
    document = JSON.parse(given.out) as ComparisonDocument;
  });
  const names = ['Bare warm-white LEDs, 8 mm behind', 'Warm white further back, turned inwards'];

  it('[CL20] gives the readings with ranking, pairs and match as one document', () => {
    expect(Object.keys(document)).toEqual(['format', 'version', 'readings', 'ranking', 'pairs', 'match']);
    expect([document.format, document.version, document.readings.length]).toEqual(['evendial-readings', 1, 4]);
    // Bare LEDs score under 50, those that were moved back above 80.
    expect(document.ranking.evenness).toEqual([[names[1]], [names[0]]]);
    expect(document.pairs.map(({ a, b, evenness }) => [a, b, evenness.toldApart])).toEqual([[...names, true]]);
    expect(document.match).toEqual([]);
    expect(document.ranking.notRanked.evenness.map(({ name }) => name)).toEqual(['lost', 'lost too']);
  });

  it('[CL19] names the missing photos together and compares the others; exit 3', () => {
    expect(given.code).toBe(3);
    expect(given.err).toMatch(/2 photos are missing:\n {2}lost\.jpg \(lost, lost too\)\n {2}off\.jpg \(lost\)/);
  });

  it('[PR7] writes a difference map of every two trials', () => {
    const written = readdirSync(path.join(folder, 'maps')).filter((file) => file.includes('.difference.'));
    const [a, b] = ['Bare_warm-white_LEDs__8_mm_behind', 'Warm_white_further_back__turned_inwards'];
    expect(written.sort()).toEqual([`${b}-minus-${a}.difference.csv`, `${b}-minus-${a}.difference.png`]);
  });

  it('[SE1] a wrong file is refused with the place, before anything is measured; exit 2', async () => {
    const wrong = seriesFile('wrong.json', (file) => Object.assign(file.trials![1], { colour: 'blue' }));
    const refused = await run('--series', wrong);
    expect([refused.code, refused.out]).toEqual([2, '']);
    expect(refused.err).toMatch(/trials\[1\]\.colour/);
    expect((await run('--series', 'none.json')).err).toMatch(/none\.json cannot be read/);
  });
});
