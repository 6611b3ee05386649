import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readSeries } from '../../../core/contract/series';
import { samples } from '../../../samples/render/sample-list';
import { seriesFiles } from '../../../samples/render/series-files';
import { statedTruth, truthText } from '../../../samples/render/truth-file';

const photos = 'samples/photos';

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
  it.each(samples.map((one) => [one.file, one] as const))(
    '[SM10] the truth beside %s is what the script says',
    (file, one) => {
      const committed: unknown = JSON.parse(readFileSync(join(photos, `${file}.truth.json`), 'utf8'));
      expectAlike(committed, JSON.parse(truthText(statedTruth(one))), file);
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
});
