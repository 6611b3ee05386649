import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { AppError } from '../../../core/base/errors';
import { readSeries } from '../../../core/contract/series';
import { type Sample, samples } from '../../../samples/render/sample-list';
import { seriesFiles } from '../../../samples/render/series-files';
import { sampleSets, setSamples } from '../../../samples/render/sets';
import { photosOf } from '../../../samples/render/sets/set';
import { seriesOfSet } from '../../../samples/render/sets/set-series';
import { setTruth } from '../../../samples/render/sets/set-truth';
import { type PhotoTruth, statedTruth, truthText } from '../../../samples/render/truth-file';
import { isLongRun, sampled } from '../../support/long-run';

const photos = 'samples/photos';
const sets = 'samples/sets';

function readJson(...places: string[]): unknown {
  return JSON.parse(readFileSync(join(...places), 'utf8'));
}

/** The code of the refusal when the reader refuses a series file, else null. */
function refusalOf(text: string, name: string): string | null {
  try {
    readSeries(text, name);
    return null;
  } catch (error) {
    if (error instanceof AppError) return error.code;
    throw error;
  }
}

/** All numbers alike to six digits; the last digit of a rounded number may differ between machines. */
function expectAlike(found: unknown, wanted: unknown, place: string): void {
  if (typeof wanted === 'number') {
    expect(typeof found, place).toBe('number');
    expect(Math.abs((found as number) - wanted), place).toBeLessThanOrEqual(2e-5 * Math.abs(wanted) + 1e-9);
  } else if (typeof wanted === 'object' && wanted !== null) {
    expect(Object.keys(found as object), place).toEqual(Object.keys(wanted));
    for (const [key, value] of Object.entries(wanted)) {
      expectAlike((found as Record<string, unknown>)[key], value, `${place}.${key}`);
    }
  } else {
    expect(found, place).toBe(wanted);
  }
}

describe('committed samples', () => {
  it.each(sampled(samples, 3).map((one) => [one.file, one] as const))(
    '[SM10] the truth beside %s is what the script says',
    (file, one) => {
      expectAlike(readJson(photos, `${file}.truth.json`), JSON.parse(truthText(statedTruth(one))), file);
    },
  );

  it('[SM10] the folder holds the photos of the list and nothing else, under 12 MB in all', () => {
    const names = readdirSync(photos);
    expect(names.sort()).toEqual(samples.flatMap(({ file }) => [file, `${file}.truth.json`]).sort());
    const bytes = names.reduce((total, name) => total + statSync(join(photos, name)).size, 0);
    expect(bytes).toBeLessThan(12e6);
  });

  it.each(Object.entries(seriesFiles()))('[SM11] %s is a valid series file and up to date', (name, content) => {
    const text = readFileSync(join('samples', name), 'utf8');
    expect(() => readSeries(text, name)).not.toThrow();
    expectAlike(JSON.parse(text), JSON.parse(truthText(content)), name);
  });

  // One photo of each set, unless all are asked for: their lamps and spectra are the same code.
  const checked = isLongRun ? setSamples : sampleSets.map((set) => photosOf(set)[0]);
  it.each(checked.map((one) => [one.file, one] as const))(
    '[SM10] the truth beside %s of a set is what the script says',
    (file, one) => {
      expectAlike(readJson(sets, 'photos', `${file}.truth.json`), JSON.parse(truthText(statedTruth(one))), file);
    },
  );

  it('[SM10] the folder of the sets holds their photos and nothing else, under 3 MB in all', () => {
    const names = readdirSync(join(sets, 'photos'));
    expect(names.sort()).toEqual(setSamples.flatMap(({ file }) => [file, `${file}.truth.json`]).sort());
    const bytes = names.reduce((total, name) => total + statSync(join(sets, 'photos', name)).size, 0);
    expect(bytes).toBeLessThan(3e6);
  });

  it.each(sampleSets.map((set) => [set.name, set] as const))(
    '[SM11] the series file of the set %s is valid and up to date',
    (name, set) => {
      const text = readFileSync(join(sets, `${name}.series.json`), 'utf8');
      expect(refusalOf(text, name)).toBeNull();
      expectAlike(JSON.parse(text), JSON.parse(truthText(seriesOfSet(set))), name);
    },
  );

  it.each(sampleSets.map((set) => [set.name, set] as const))(
    '[SM14] the truth of the set %s follows from its photos’',
    (name, set) => {
      const truthOf = ({ file }: Sample) => readJson(sets, 'photos', `${file}.truth.json`) as PhotoTruth;
      expectAlike(readJson(sets, `${name}.truth.json`), JSON.parse(truthText(setTruth(set, truthOf))), name);
    },
  );
});
