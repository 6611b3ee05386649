import { createHash } from 'node:crypto';
import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { Book } from '../../../core/node/book/book';
import { importUnit } from '../../../core/node/book/import-unit';
import { sheetContent } from '../../../core/sheet/make-content';
import { textsOf } from '../../support/sheet-pictures';

const archives = [
  ['samples/larkfield-t60.evendial', 'Larkfield T-60', 6],
  ['samples/larkfield-m4.evendial', 'Larkfield M-4', 2],
] as const;
const samplePhotos = new Set(
  readdirSync('samples/photos').map((file) =>
    createHash('sha256')
      .update(readFileSync(path.join('samples/photos', file)))
      .digest('hex'),
  ),
);
let folder: string;
beforeAll(() => void (folder = mkdtempSync(path.join(tmpdir(), 'evendial-sample-units-'))));
afterAll(() => rmSync(folder, { recursive: true }));

describe('sample units', () => {
  it.each(archives)(
    '[SM16] %s is taken in whole, with every group filled and sample photos only',
    async (file, name, trials) => {
      const { signal } = new AbortController();
      const { unit } = await importUnit(new Book(folder), path.resolve(file), file, { dryRun: false, signal, onProgress: () => undefined }); // prettier-ignore
      expect([unit.name, unit.trials.length, unit.photos.length]).toEqual([name, trials, trials + 1]);
      expect(unit.photos.filter(({ sha256 }) => !samplePhotos.has(sha256))).toEqual([]);
      expect(unit.readings).toHaveLength(trials + 1);
      for (const group of [
        unit.before?.lamp,
        unit.before?.supply,
        unit.before?.light,
        unit.after?.howToGoBack,
        unit.chosen?.why,
      ])
        expect(group).toBeTruthy();
      expect(unit.trials.flatMap(({ lamps }) => lamps ?? []).every(({ positionMm, type }) => positionMm && type)).toBe(
        true,
      );
      const content = sheetContent({ record: unit, measured: [], failed: [], comparison: null, program: 'Evendial' });
      expect(textsOf(content).filter((text) => /undefined|\/tmp|\/home/.test(text))).toEqual([]);
      expect(statSync(file).size).toBeLessThan(600_000);
    },
    30_000,
  );
});
