import { describe, expect, it } from 'vitest';
import { applyEdit } from '../../../core/book/apply-edit';
import { newUnit } from '../../../core/book/revisions';
import type { UnitRecord } from '../../../core/contract/unit-record';
import { sheetRequest } from '../../../core/node/sheet/unit-sheet';
import { larkfieldUnit, savedAt } from '../../support/unit-records';

const jobsOf = (record: UnitRecord): number | null => sheetRequest(record, (file) => file)?.jobs.length ?? null;

describe('what a sheet has measured', () => {
  it('[RS8] is the reference and all trials; nothing of a unit that has no photo, or no window yet', () => {
    expect(jobsOf(larkfieldUnit())).toBe(3);
    expect(jobsOf({ ...larkfieldUnit(), photos: [] })).toBeNull();
    expect(jobsOf({ ...larkfieldUnit(), windows: [] })).toBeNull();
    expect(jobsOf(newUnit('m-4', 'M-4', savedAt))).toBeNull();
  });

  it('[RS8] is nothing when what is left after a window was removed are trials that light no window', () => {
    const { trials, photos, ...unit } = larkfieldUnit();
    const lit: UnitRecord = {
      ...unit,
      photos: photos.filter(({ role }) => role === 'trial'),
      trials: trials.map((trial) => ({ ...trial, windows: ['scale'] })),
    };
    expect(jobsOf(lit)).toBe(2);
    expect(jobsOf(applyEdit(lit, { kind: 'remove', list: 'windows', name: 'scale' }))).toBeNull();
  });
});
