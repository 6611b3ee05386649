import { readFileSync } from 'node:fs';
import path from 'node:path';
import { expect, it } from 'vitest';
import { readSeries, requestOfSeries } from '../../../core/contract/series';
import { cornerDistance } from '../../support/corner-distance';
import { measureAll } from '../../support/measured-samples';
import type { PhotoTruth } from '../../../samples/render/truth-file';

it('[SE5] [RG6] a series with the corners of its reference alone reads its trials in the same places', async () => {
  const series = readSeries(readFileSync('samples/t60.series.json', 'utf8'), 't60.series.json');
  // Bare amber, where red looks dark, and the cool white that is lit least alike.
  const trials = series.trials!.filter((_, i) => i === 0 || i === 6).map((trial) => ({ ...trial, corners: undefined }));
  const request = requestOfSeries({ ...series, trials }, (file) => path.resolve('samples', file));
  const readings = await measureAll(request);
  expect(readings).toHaveLength(3);
  for (const { outline, photos, redPrint } of readings.slice(1)) {
    const { windows } = JSON.parse(readFileSync(`samples/${photos[0].file}.truth.json`, 'utf8')) as PhotoTruth;
    expect(outline.cornersFrom).toBe('registration');
    // A share of the window's width: 0.1 mm of 92.
    const corners = outline.cornersPx.map(([column, row]) => ({ column, row }));
    expect(cornerDistance(corners as never, windows[0].cornersPx)).toBeLessThan(0.0011);
    expect(outline.registrationMm).toBeLessThan(0.05);
    expect(redPrint.maskFrom).toBe('reference');
  }
  // The red that amber light hides is measured where the reference shows it: hardly redder than the glow.
  const [, amber] = readings;
  expect(Math.abs(amber.redPrint.redness.value!)).toBeLessThan(0.03);
});
