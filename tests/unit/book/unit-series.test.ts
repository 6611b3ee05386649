import { describe, expect, it } from 'vitest';
import { requestOfUnit, seriesOfUnit } from '../../../core/book/unit-series';
import { newUnit } from '../../../core/book/revisions';
import { setField } from '../../../core/book/set-field';
import { readSeries } from '../../../core/contract/series';
import { larkfieldUnit, savedAt } from '../../support/unit-records';

const name = (digit: string): string => `photos/${digit.repeat(64)}.jpg`;

describe('seriesOfUnit', () => {
  it('[BK13] is a valid series file of the reference and each trial that has a photo', () => {
    const series = seriesOfUnit(larkfieldUnit());
    expect(readSeries(JSON.stringify(series), 'series')).toEqual(series);
    expect(series).toMatchObject({ room: 'dark', viewingDistanceMm: 600 });
    expect(series.reference).toMatchObject({ light: 'filament', photos: [{ file: name('a'), exposureS: 0.1 }] });
    expect(series.trials?.map((one) => [one.name, one.light, one.lampOff])).toEqual([
      ['Bare, 8 mm', 'warm-white', { file: name('d') }],
      ['Frosted', 'warm-white', { file: name('e') }],
    ]);
  });

  it('[BK13] measures one trial beside the reference, and only the windows that it lights', () => {
    const unit = setField(larkfieldUnit(), 'trials[Frosted].windows', 'meter');
    const { jobs } = requestOfUnit(unit, 'Frosted', (file) => `/book/${file}`);
    expect(jobs.map((job) => [job.role, job.photo.path, job.windows.map(({ spec }) => spec.name)])).toEqual([
      ['reference', `/book/${name('a')}`, ['scale']],
      ['trial', `/book/${name('c')}`, ['meter']],
    ]);
  });

  it('[BK13] says what is missing to measure', () => {
    const empty = newUnit('u', 'T-60', savedAt);
    expect(() => seriesOfUnit(empty)).toThrow('has no window');
    expect(() => seriesOfUnit({ ...larkfieldUnit(), photos: [] })).toThrow('has no photo of a trial or a reference');
    expect(() => seriesOfUnit({ ...larkfieldUnit(), photos: [] }, 'Frosted')).toThrow('has no photo');
  });
});
