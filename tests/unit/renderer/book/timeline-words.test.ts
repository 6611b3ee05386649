import { describe, expect, it } from 'vitest';
import { addTrial, chooseTrial } from '../../../../core/book/edits';
import { setField } from '../../../../core/book/set-field';
import { changesOf } from '../../../../core/book/timeline';
import type { UnitRevision } from '../../../../core/contract/book-verbs';
import type { UnitRecord } from '../../../../core/contract/unit-record';
import { newUnit } from '../../../../core/book/revisions';
import { stepsOf, timelineWords } from '../../../../renderer/views/record/timeline-words';
import { larkfieldUnit, savedAt } from '../../../support/unit-records';

const told = (before: UnitRecord, after: UnitRecord, part: Partial<UnitRevision> = {}): string[] =>
  timelineWords({ revision: 2, savedAt, restores: null, changes: changesOf(before, after), ...part });

describe('the time line in plain words', () => {
  const unit = larkfieldUnit();

  it('[SU3] says fields by their labels, with what was there before', () => {
    expect(told(unit, setField(unit, 'before.lamp.base', 'BA9s'))).toEqual(['Base: BA9s (was E10)']);
    expect(told(unit, setField(unit, 'before.supply.voltsWithLamp', ''))).toEqual([
      'With the lamp in: taken away (was 7.6 V)',
    ]);
    expect(told(unit, setField(unit, 'after.reversible', 'yes'))).toEqual(['Can be undone: yes']);
    expect(told(unit, setField(unit, 'trials["Bare, 8 mm"].lamps[left].positionMm', '20,9,8'))).toEqual([
      'Bare, 8 mm, left: place, mm: 20, 9, 8 (was 23, 9, 8)',
    ]);
    expect(told(unit, setField(unit, 'trials[Frosted].light', 'cool-white'))).toEqual([
      'Frosted: Kind of light: cool white LED (was warm white LED)',
    ]);
  });

  it('[SU3] says what came, went and was chosen', () => {
    expect(told(unit, addTrial(unit, { name: 'Sanded' }))).toEqual(['Trial Sanded added']);
    expect(told(addTrial(unit, { name: 'Sanded' }), unit)).toEqual(['Trial Sanded removed']);
    expect(told(unit, chooseTrial(unit, 'Bare, 8 mm', 'cheaper'))).toEqual([
      'Chosen: Bare, 8 mm (was Frosted)',
      'Reason of the choice: cheaper (was no hot spot left)',
    ]);
    expect(told(unit, setField(unit, 'parts[fuse].count', '1'))).toEqual(['Part fuse added']);
  });

  it('[SU3] says what undoing brought back, and that a record was begun', () => {
    expect(told(unit, unit, { restores: 7 })).toEqual(['As it was in revision 7']);
    expect(told(unit, unit, { revision: 1 })).toEqual(['The record was begun']);
  });

  it('[SU3] a whole record at once has no key of the file in it', () => {
    const lines = told(newUnit(unit.id, 'new', savedAt), unit);
    expect(lines.length).toBeGreaterThan(12);
    const keys = /\b[a-z]+[A-Z]\w*|undefined|NaN|\[object|sha256/;
    expect(lines.filter((line) => keys.test(line))).toEqual([]);
  });

  it('[SU3] reads places with brackets, quotation marks and dots in names', () => {
    expect(stepsOf('trials["a.b [c] \\"d\\""].lamps.left.currentMa')).toEqual([
      'trials',
      'a.b [c] "d"',
      'lamps',
      'left',
      'currentMa',
    ]);
    expect(stepsOf('before.supply.hz')).toEqual(['before', 'supply', 'hz']);
  });
});
