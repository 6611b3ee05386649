import { describe, expect, it } from 'vitest';
import { addPhoto, addTrial, addWindow, chooseTrial } from '../../../core/book/edits';
import { problemsInRecord } from '../../../core/book/read-record';
import { isFound, searchText } from '../../../core/book/search-text';
import { setField } from '../../../core/book/set-field';
import { larkfieldUnit, photoEntry } from '../../support/unit-records';

const codeOf = (act: () => unknown): unknown => {
  try {
    return act();
  } catch (error) {
    return (error as { code?: string }).code;
  }
};

describe('edits of a unit', () => {
  it('[BK8] refuse a name that is taken or not there, and leave the record as it was', () => {
    const unit = larkfieldUnit();
    expect(codeOf(() => addWindow(unit, { name: 'scale', widthMm: 9, heightMm: 8 }))).toBe('NAME_TAKEN');
    expect(codeOf(() => addTrial(unit, { name: 'Frosted' }))).toBe('NAME_TAKEN');
    expect(codeOf(() => addTrial(unit, { name: 'New', like: 'Lacquered' }))).toBe('TRIAL_UNKNOWN');
    expect(codeOf(() => addTrial(unit, { name: 'New', mirrorTo: 'scale' }))).toBe('MIRROR_NEEDS_LIKE');
    expect(codeOf(() => addTrial(unit, { name: 'New', like: 'Frosted', mirrorTo: 'dial' }))).toBe('WINDOW_UNKNOWN');
    expect(codeOf(() => addPhoto(unit, photoEntry('f', { role: 'trial', trial: 'New' })))).toBe('TRIAL_UNKNOWN');
    expect(codeOf(() => chooseTrial(unit, 'New'))).toBe('TRIAL_UNKNOWN');
    expect(unit).toEqual(larkfieldUnit());
  });

  it('[BK8] the same photo for the same purpose stands once, for another purpose twice', () => {
    const unit = larkfieldUnit();
    const again = addPhoto(unit, { ...unit.photos[0], name: 'again.jpg' });
    expect(again.photos.map(({ name }) => name)).toEqual(['b.jpg', 'c.jpg', 'd.jpg', 'e.jpg', 'again.jpg']);
    expect(addPhoto(unit, { ...unit.photos[0], role: 'other' }).photos).toHaveLength(6);
  });

  it('[BK9] a mirrored trial has its lamps as far from the other edge, turned the other way', () => {
    const wide = addWindow(larkfieldUnit(), { name: 'right scale', widthMm: 100, heightMm: 18 });
    const { trials } = addTrial(wide, { name: 'Mirrored', like: 'Bare, 8 mm', mirrorTo: 'right scale' });
    const mirrored = trials[2];
    expect(mirrored.lamps?.map(({ positionMm, tiltDeg }) => [positionMm, tiltDeg])).toEqual([
      [
        [77, 9, 8],
        [-5, -3],
      ],
      [[31, 9, 8], undefined],
    ]);
    expect(mirrored).toMatchObject({ like: 'Bare, 8 mm', mirroredTo: 'right scale', windows: ['right scale'] });
    const back = addTrial({ ...wide, trials }, { name: 'Back', like: 'Mirrored', mirrorTo: 'right scale' });
    expect(back.trials[3].lamps).toEqual(wide.trials[0].lamps);
  });

  it('[BK10] finds every word that a person wrote, whatever its capitals and accents', () => {
    const text = searchText({ ...larkfieldUnit(), notes: 'Größe wie beim Ämpchen' });
    expect(isFound(text, 'TRACING hot ampchen')).toBe(true);
    expect(isFound(text, 'E10 no-such-word')).toBe(false);
    expect(isFound(text, 'aaaaaaaa')).toBe(false);
  });
});

describe('setField', () => {
  it.each([
    ['owner', 'someone', 'someone', ['owner']],
    ['before.lamp.ratedMa', '250', 250, ['before', 'lamp', 'ratedMa']],
    ['before.supply.kind', 'DC', 'DC', ['before', 'supply', 'kind']],
    ['after.reversible', 'yes', true, ['after', 'reversible']],
    ['trials[Bare, 8 mm].lamps[left].positionMm', '22.5,9,14', [22.5, 9, 14], ['trials', 0, 'lamps', 0, 'positionMm']],
    ['trials["Frosted"].lamps[top].currentMa', '4', 4, ['trials', 1, 'lamps', 2, 'currentMa']],
    ['trials[Frosted].windows', 'scale, meter', ['scale', 'meter'], ['trials', 1, 'windows']],
    [
      'photos[cccccc].corners[meter]',
      '1,2 30,2 30,40 1,40',
      [
        [1, 2],
        [30, 2],
        [30, 40],
        [1, 40],
      ],
      ['photos', 2, 'corners', 'meter'],
    ],
    ['windows[meter].outline', '{"kind":"rectangle"}', { kind: 'rectangle' }, ['windows', 1, 'outline']],
    ['parts[Tape].count', '2', 2, ['parts', 1, 'count']],
  ])('[BK12] %s=%s', (place, text, value, path) => {
    const unit = setField(larkfieldUnit(), place, text);
    expect(path.reduce<unknown>((at, key) => (at as Record<string, unknown>)[key], unit)).toEqual(value);
    expect(problemsInRecord(unit)).toEqual([]);
  });

  it('[BK12] an empty value takes the field away, and the group with it when nothing is left', () => {
    const one = setField(setField(larkfieldUnit(), 'after.hum', 'none'), 'after.hum', '');
    expect(one).toEqual(larkfieldUnit());
    expect(setField(larkfieldUnit(), 'trials[Frosted].strings[both]', '').trials[1].strings).toEqual([]);
  });

  it.each([
    ['colour', 'red', 'FIELD_UNKNOWN', 'Known here: name, maker'],
    ['revision', '7', 'FIELD_UNKNOWN', ''],
    ['photos[a.jpg].sha256', 'b', 'FIELD_UNKNOWN', ''],
    ['trials[Lacquered].light', 'red', 'FIELD_UNKNOWN', '"Frosted"'],
    ['before..lamp', 'E10', 'FIELD_UNKNOWN', 'before.lamp.base'],
    ['before.lamp.ratedV', '6,3', 'VALUE_INVALID', 'a number'],
    ['before.lamp.countOnSupply', '1.5', 'VALUE_INVALID', ''],
    ['after.reversible', 'perhaps', 'VALUE_INVALID', 'yes or no'],
    ['before.supply.kind', 'mains', 'VALUE_INVALID', ''],
    ['name', '', 'VALUE_INVALID', ''],
    ['trials[Frosted]', '', 'VALUE_INVALID', ''],
  ])('[BK12] refuses %s=%s with its place', (place, text, code, remedy) => {
    let thrown: unknown;
    try {
      setField(larkfieldUnit(), place, text);
    } catch (error) {
      thrown = error;
    }
    expect(thrown).toMatchObject({ kind: 'usage', code });
    expect((thrown as { remedy: string }).remedy).toContain(remedy);
  });

  it('[BK12] a new name is carried to everything that speaks of it', () => {
    const unit = setField(setField(larkfieldUnit(), 'windows[scale].name', 'dial'), 'trials[Frosted].name', 'Matt');
    expect(problemsInRecord(unit)).toEqual([]);
    expect(unit.chosen?.trial).toBe('Matt');
    expect(unit.photos.map(({ trial }) => trial)).toEqual([undefined, 'Bare, 8 mm', 'Matt', undefined, 'Matt']);
    expect(Object.keys(unit.photos[0].corners ?? {})).toEqual(['dial']);
  });
});
