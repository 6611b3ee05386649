import { describe, expect, it } from 'vitest';
import { requestOfUnit, seriesOfUnit } from '../../../core/book/unit-series';
import { newUnit } from '../../../core/book/revisions';
import { setField } from '../../../core/book/set-field';
import { readSeries } from '../../../core/contract/series';
import type { UnitPhoto, UnitRecord } from '../../../core/contract/unit-record';
import { larkfieldUnit, photoEntry, savedAt } from '../../support/unit-records';

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

  describe('of close-ups', () => {
    const square = [[0, 0], [9, 0], [9, 9], [0, 9]] as [number, number][]; // prettier-ignore
    const of = (digit: string, role: 'reference' | 'trial', ...windows: string[]): UnitPhoto =>
      photoEntry(digit, {
        role,
        ...(role === 'trial' ? { trial: 'Frosted' } : {}),
        corners: Object.fromEntries(windows.map((window) => [window, square])),
      });
    const jobsOf = (photos: UnitPhoto[], change = (unit: UnitRecord): UnitRecord => unit) =>
      requestOfUnit(change({ ...larkfieldUnit(), photos }), undefined, (file) => file).jobs.map((job) =>
        [
          job.role === 'reference' ? 'reference' : job.name,
          (job.bracket ?? [job.photo]).map(({ path }) => path[7]).join(''),
          job.windows.map(({ spec }) => spec.name).join('+'),
        ].join(' '),
      );
    const scaleThenMeter = [
      of('a', 'reference', 'scale'),
      of('b', 'reference', 'meter'),
      of('c', 'trial', 'scale'),
      of('d', 'trial', 'meter'),
    ];

    it('[BK13] measures each window in its own photo, a window after the other', () => {
      const all = ['reference a scale', 'Frosted c scale', 'reference b meter', 'Frosted d meter'];
      expect(jobsOf(scaleThenMeter)).toEqual(all);
      expect(jobsOf([...scaleThenMeter].reverse())).toEqual(all);
    });

    it('[BK13] measures a window in the newest photo that shows it, with the shots of the same windows', () => {
      const taken = [
        of('1', 'trial', 'scale', 'meter'),
        of('2', 'trial', 'scale', 'meter'),
        of('3', 'trial', 'scale'),
        of('4', 'trial', 'scale'),
      ];
      expect(jobsOf(taken)).toEqual(['Frosted 34 scale', 'Frosted 12 meter']);
      expect(jobsOf([...taken].reverse())).toEqual(['Frosted 21 scale+meter']);
    });

    it('[BK13] asks a photo without corners for all windows as the newest, for none behind a placed one', () => {
      const unplaced = photoEntry('5', { role: 'trial', trial: 'Frosted' });
      expect(jobsOf([of('c', 'trial', 'scale'), unplaced])).toEqual(['Frosted 5 scale+meter']);
      expect(jobsOf([unplaced, of('c', 'trial', 'scale')])).toEqual(['Frosted c scale']);
    });

    it('[BK13] leaves out those of windows that the trial does not light', () => {
      const onlyMeter = (unit: UnitRecord): UnitRecord => setField(unit, 'trials[Frosted].windows', 'meter');
      expect(jobsOf(scaleThenMeter, onlyMeter)).toEqual(['reference a scale', 'reference b meter', 'Frosted d meter']);
    });

    it('[BK13] is one valid series file of each trial once', () => {
      const series = seriesOfUnit({ ...larkfieldUnit(), photos: scaleThenMeter });
      expect(readSeries(JSON.stringify(series), 'series')).toEqual(series);
      expect(series.trials?.map(({ name: trial }) => trial)).toEqual(['Frosted']);
    });
  });

  it('[BK13] says what is missing to measure', () => {
    const empty = newUnit('u', 'T-60', savedAt);
    expect(() => seriesOfUnit(empty)).toThrow('has no window');
    expect(() => seriesOfUnit({ ...larkfieldUnit(), photos: [] })).toThrow('has no photo of a trial or a reference');
    expect(() => seriesOfUnit({ ...larkfieldUnit(), photos: [] }, 'Frosted')).toThrow('has no photo');
  });
});
