import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import os from 'node:os';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { compareSeries } from '../../../core/compare/compare-series';
import type { ShownWindow } from '../../../core/compare/find-matches';
import type { Sweep } from '../../../core/compare/sweeps';
import { figure, missing } from '../../../core/contract/figure';
import type { MeasureJob } from '../../../core/contract/measure';
import type { Reading } from '../../../core/contract/readings';
import { readCompareOptions } from '../../../core/node/cli/compare-options';
import { comparisonText } from '../../../core/node/cli/compare-text';
import { missingPhotos, missingText } from '../../../core/node/cli/missing-photos';
import { madeUpShown } from '../compare/made-up-windows';

const refusalOf = (words: string[]): string => {
  try {
    readCompareOptions(words, { folder: '/here' });
  } catch (error) {
    return (error as Error).message;
  }
  return 'accepted';
};

describe('readCompareOptions', () => {
  it('[CL20] takes a series file, and what to make of it', () => {
    expect(readCompareOptions(['--series', 's.json', '--json', '--maps=m'], { folder: '/here' })).toEqual({
      source: { kind: 'series', file: 's.json' },
      isJson: true,
      strict: false,
      mapsFolder: 'm',
    });
  });

  it('[CL20] takes a unit of a book', () => {
    const { source } = readCompareOptions(['--unit', 'T-60', '--book', 'b'], { folder: '/here' });
    expect(source).toEqual({ kind: 'unit', called: 'T-60', book: path.resolve('/here', 'b') });
  });

  it.each([
    [[], 'no series file and no unit is named'],
    [['--series', ''], 'no series file and no unit is named'],
    [['--series', 's.json', '--unit', 'T-60'], '--series and --unit together'],
    [['--series', 's.json', '--book', 'b'], '--book without --unit'],
    [['--unit', 'T-60', '--book', ''], '--book names no folder'],
    [['a.jpg', '--series', 's.json'], 'compare takes no photos ("a.jpg")'],
    [['--series', 's.json', '--maps', ''], '--maps names no folder'],
    [['--series', 's.json', '--csv'], 'unknown option --csv'],
  ])('[CL20] refuses %j', (words, message) => {
    expect(refusalOf(words)).toBe(message);
  });
});

describe('missingPhotos', () => {
  it('[CL19] names every missing photo once, helpers too, with the trials that name it', async () => {
    const folder = await mkdtemp(path.join(os.tmpdir(), 'evendial-missing-'));
    try {
      await writeFile(path.join(folder, 'there.jpg'), 'x');
      const photo = (file: string) => ({
        file,
        path: path.join(folder, file),
        encoding: 'profile' as const,
        encodingStated: false,
        exposure: {},
      });
      const job = (name: string, file: string, lampOff: string): MeasureJob => ({
        role: 'trial',
        name,
        photo: photo(file),
        light: 'unknown',
        windows: [],
        lampOff: photo(lampOff),
      });
      const jobs = [job('bare', 'there.jpg', 'off.jpg'), job('tape', 'lost.jpg', 'off.jpg')];
      const lines = await missingPhotos(jobs);
      expect(lines).toEqual(['off.jpg (bare, tape)', 'lost.jpg (tape)']);
      expect(missingText(lines, 'series')).toMatch(/^2 photos are missing:\n {2}off.jpg \(bare, tape\)\n {2}lost.jpg/);
      expect(missingText(lines, 'unit')).toMatch(/'evendial unit check' tells more/);
      expect(missingText(await missingPhotos([job('bare', 'there.jpg', 'there.jpg')]), 'series')).toBeNull();
    } finally {
      await rm(folder, { recursive: true });
    }
  });
});

function textOf(shown: readonly ShownWindow[], windows: readonly string[], sweeps: readonly Sweep[] = []): string {
  const comparison = compareSeries(windows, shown, [{ name: 'lost', window: null, reason: 'lost.jpg does not exist' }]);
  const rows = shown.map(({ role, reading }) => ({ role, entry: reading as Reading }));
  return comparisonText({
    windows,
    shown,
    comparison,
    sweeps,
    rows,
    readingsCommand: 'evendial measure --series FILE',
  });
}

describe('comparisonText', () => {
  const even = madeUpShown({ name: 'shade', score: figure(88.1, 2.4) });
  const bare = madeUpShown({ name: 'bare', score: figure(61.3, 3.1), camera: { exposureS: 0.4 } });
  const tape = madeUpShown({ name: 'tape', score: figure(62.2, 3.1) });
  const dark = madeUpShown({ name: 'dark', score: missing('Too dark') });

  it('[CL21] puts trials in order, those that cannot be told apart together, with what would help', () => {
    const text = textOf([bare, dark, even, tape], ['scale']);
    const evenness = text.slice(text.indexOf('Evenness, of 100'), text.indexOf('Red print'));
    expect(evenness).toMatch(/1 {2}shade +88 ± 3\n/);
    expect(evenness).toMatch(/2 {2}tape +62 ± 4 +│ cannot be told apart\n +bare +61 ± 4 +│\n/);
    expect(evenness).toMatch(/To tell them apart: take them at the same time, f-number and ISO\./);
    expect(evenness).toMatch(/\/\/\/ +dark: Too dark\n/);
    expect(evenness).toMatch(/\/\/\/ +lost: lost.jpg does not exist/);
  });

  it('[CL21] sweeps show each step, matches each two windows; every line keeps to 100 columns', () => {
    const z = { lamp: 'left', coordinate: 'z mm', steps: [{ value: 8, trials: ['bare'] }, { value: 14.5, trials: ['tape', 'lost'] }] } as const; // prettier-ignore
    const meter = madeUpShown({
      name: 'bare',
      window: 'meter',
      photo: 'bare',
      glowMean: figure(0.12, 0.01),
      camera: { exposureS: 0.4 },
    });
    const long = madeUpShown({ name: 'a very long name of a trial '.repeat(4), score: figure(40.2, 3.1) });
    const text = textOf([bare, tape, meter, long], ['scale', 'meter'], [z]);
    expect(text).toMatch(/Lamp left: what z does\n +z mm +evenness/);
    expect(text).toMatch(/14\.5 +62 ± 4 .* tape\n/);
    expect(text).toMatch(/scale and meter in bare\n +light +0\.39 ± 0\.01 +meter over scale, which is the brighter/);
    expect(text.split('\n').filter((line) => [...line].length > 100)).toEqual([]);
  });
});
