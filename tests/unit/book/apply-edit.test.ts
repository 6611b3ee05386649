import { describe, expect, it } from 'vitest';
import { applyEdit } from '../../../core/book/apply-edit';
import { addPhoto, putReadings } from '../../../core/book/edits';
import { problemsInRecord } from '../../../core/book/read-record';
import type { UnitEdit } from '../../../core/contract/book-verbs';
import type { UnitReading, UnitRecord } from '../../../core/contract/unit-record';
import { larkfieldUnit, photoEntry, savedAt } from '../../support/unit-records';

const noFigure = { value: null, plusMinus: null, reason: 'made up' } as const;
const reading = (trial: string | null, window: string, digit: string): UnitReading => ({
  trial,
  window,
  photo: digit.repeat(64),
  measuredAt: savedAt,
  program: 'evendial 0',
  evenness: noFigure,
  evennessWords: '',
  redPrint: noFigure,
  redPrintWords: '',
  toReferenceUv: noFigure,
  colourWords: '',
  gates: [],
});

/** With a reading of every photo, a photo and a trial of the meter alone, and a trial that was planned from another. */
function fullUnit(): UnitRecord {
  const unit = larkfieldUnit();
  const [scale] = Object.values(unit.photos[0].corners ?? {});
  const meterOnly = photoEntry('f', { role: 'reference', corners: { meter: scale } });
  const both = photoEntry('9', { role: 'other', corners: { meter: scale, scale } });
  const [bare, frosted] = unit.trials;
  const planned = { what: 'paper', from: bare.name, window: 'scale', evenness: 80 };
  const lit: UnitRecord = {
    ...unit,
    trials: [bare, { ...frosted, planned }, { name: 'Meter', windows: ['meter'], mirroredTo: 'meter' }],
  };
  return putReadings([meterOnly, both].reduce(addPhoto, lit), [
    reading(null, 'scale', 'a'),
    reading(null, 'meter', 'f'),
    reading('Bare, 8 mm', 'scale', 'b'),
    reading('Frosted', 'scale', 'c'),
  ]);
}
const names = (unit: UnitRecord): string[] => unit.photos.map(({ name }) => name);
const readFrom = (unit: UnitRecord): string[] => unit.readings.map(({ photo }) => photo[0]);

describe('applyEdit', () => {
  it('[BK27] without a window, without its readings, the photos of it alone and all that spoke of it', () => {
    const unit = applyEdit(fullUnit(), { kind: 'remove', list: 'windows', name: 'meter' });
    expect(names(unit)).toEqual(['a.jpg', 'b.jpg', 'c.jpg', 'd.jpg', 'e.jpg', '9.jpg']);
    expect(Object.keys(unit.photos[5].corners ?? {})).toEqual(['scale']);
    expect(readFrom(unit)).toEqual(['a', 'b', 'c']);
    expect(unit.trials[2]).toEqual({ name: 'Meter', windows: [] });
    expect(unit.trials[1].planned).toBeDefined();
    const without = applyEdit(fullUnit(), { kind: 'remove', list: 'windows', name: 'scale' });
    expect(without.trials[1].planned).toBeUndefined();
    const dial = applyEdit(fullUnit(), { kind: 'set', field: 'windows["scale"].name', text: 'dial' });
    expect(dial.trials[1].planned?.window).toBe('dial');
    expect(problemsInRecord(unit)).toEqual([]);
  });

  it('[BK27] without a trial, without its photos and readings; it is not chosen any more', () => {
    const before = fullUnit();
    const unit = applyEdit(before, { kind: 'remove', list: 'trials', name: 'Frosted' });
    expect(names(unit)).toEqual(['a.jpg', 'b.jpg', 'd.jpg', 'f.jpg', '9.jpg']);
    expect(readFrom(unit)).toEqual(['a', 'f', 'b']);
    expect(unit.chosen).toBeUndefined();
    const other = applyEdit(before, { kind: 'remove', list: 'trials', name: 'Bare, 8 mm' });
    expect(other.trials[0]).toMatchObject({ name: 'Frosted', planned: { what: 'paper', evenness: 80 } });
    expect(Object.keys(other.trials[0])).not.toContain('like');
    expect(Object.keys(other.trials[0].planned ?? {})).not.toContain('from');
    expect(unit.trials[0]).toEqual(before.trials[0]);
    expect(other.chosen?.trial).toBe('Frosted');
    for (const one of [unit, other]) expect(problemsInRecord(one)).toEqual([]);
    expect(before).toEqual(fullUnit());
  });

  it('[BK27] without a photo in one role: in another role it stays, and so does what was read from it there', () => {
    const twice = addPhoto(fullUnit(), photoEntry('a', { role: 'other' }));
    const sha256 = 'a'.repeat(64);
    const unit = applyEdit(twice, { kind: 'remove-photo', sha256, role: 'reference', trial: null });
    expect(unit.photos.filter((photo) => photo.sha256 === sha256).map(({ role }) => role)).toEqual(['other']);
    expect(readFrom(unit)).toEqual(['f', 'b', 'c']);
    const kept = applyEdit(twice, { kind: 'remove-photo', sha256, role: 'other', trial: null });
    expect(readFrom(kept)).toEqual(['a', 'f', 'b', 'c']);
  });

  it('[BK27] takes what the screens ask, as the command line does', () => {
    const edits: UnitEdit[] = [
      { kind: 'add-window', window: { name: 'right', widthMm: 92, heightMm: 18 } },
      { kind: 'add-trial', name: 'Right', light: 'narrow-amber', like: 'Bare, 8 mm', mirrorTo: 'right' },
      { kind: 'set', field: 'trials[Right].diffuser', text: '' },
      { kind: 'choose-trial', trial: 'Right', why: '' },
      { kind: 'remove', list: 'parts', name: 'LED' },
    ];
    const unit = edits.reduce(applyEdit, fullUnit());
    expect(unit.trials[3]).toMatchObject({ name: 'Right', light: 'narrow-amber', mirroredTo: 'right' });
    expect(unit.trials[3].diffuser).toBeUndefined();
    expect(unit.chosen).toEqual({ trial: 'Right' });
    expect(unit.parts).toEqual([]);
  });

  it.each<[string, UnitEdit, string]>([
    ['a window', { kind: 'remove', list: 'windows', name: 'dial' }, 'WINDOW_UNKNOWN'],
    ['a trial', { kind: 'remove', list: 'trials', name: 'dial' }, 'TRIAL_UNKNOWN'],
    ['a part', { kind: 'remove', list: 'parts', name: 'dial' }, 'PART_UNKNOWN'],
    ['a photo', { kind: 'remove-photo', sha256: 'a'.repeat(64), role: 'trial', trial: 'Frosted' }, 'PHOTO_UNKNOWN'],
    ['a choice', { kind: 'choose-trial', trial: 'dial', why: '' }, 'TRIAL_UNKNOWN'],
    ['a field', { kind: 'set', field: 'bfore.lamp', text: '1' }, 'FIELD_UNKNOWN'],
  ])('[BK27] refuses %s that is not there', (_, edit, code) => {
    expect(() => applyEdit(fullUnit(), edit)).toThrow(expect.objectContaining({ code }));
  });

  it('[BK27] refuses what would not be a record, with its place', () => {
    const window = {
      name: 'new',
      widthMm: 92,
      heightMm: 18,
      painted: { red: [{ pointsMm: [[0, 0]] as [number, number][] }] },
    };
    expect(() => applyEdit(fullUnit(), { kind: 'add-window', window })).toThrow(
      expect.objectContaining({ code: 'VALUE_INVALID', message: expect.stringContaining('windows[2].painted.red[0]') }),
    );
  });
});
