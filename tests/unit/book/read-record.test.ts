import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { migrateRecord, migrations } from '../../../core/book/migrations';
import { problemsInRecord, readRecord, recordText } from '../../../core/book/read-record';
import { recordSchema } from '../../../core/book/record-schema';
import { unitVersion } from '../../../core/contract/unit-record';
import { larkfieldUnit, savedAt } from '../../support/unit-records';

const changed = (change: (record: Record<string, unknown>) => void): string => {
  const record = JSON.parse(recordText(larkfieldUnit())) as Record<string, unknown>;
  change(record);
  return JSON.stringify(record);
};

const halfFigure = changed((r) => {
  const nothing = { value: null, plusMinus: null, reason: 'no photo' };
  const evenness = { value: 3, plusMinus: null };
  const words = { evennessWords: '', redPrintWords: '', colourWords: '', measuredAt: savedAt, program: 'x' };
  const figures = { evenness, redPrint: nothing, toReferenceUv: nothing, gates: [] };
  r['readings'] = [{ trial: null, window: 'scale', photo: 'a'.repeat(64), ...words, ...figures }];
});

const refusal = (text: string): unknown => {
  try {
    return readRecord(text, 'unit.json');
  } catch (error) {
    return error;
  }
};

describe('readRecord', () => {
  it('[BK1] gives back what was written, and the same text again', () => {
    const text = recordText(larkfieldUnit());
    const read = readRecord(text, 'unit.json');
    expect(read).toEqual(larkfieldUnit());
    const shuffled = JSON.stringify(Object.fromEntries(Object.entries(read).reverse()));
    expect(recordText(readRecord(shuffled, 'unit.json'))).toBe(text);
  });

  it.each([
    ['cut off', recordText(larkfieldUnit()).slice(0, -9), 'it is no whole JSON document'],
    ['a list', '[]', 'it holds no object'],
    ['of another kind', '{"format":"evendial-series","version":1}', 'it is no record of a unit'],
    ['without version', changed((r) => delete r['version']), 'it does not say which version it has'],
    ['an unknown key', changed((r) => (r['colour'] = 3)), 'colour: unknown key'],
    ['a wrong type', changed((r) => (r['windows'] = {})), 'windows: must be a list in [ ]'],
    ['a figure by halves', halfFigure, 'readings[0].evenness: must have a plus-minus exactly when it has a value'],
  ])('[BK1] refuses a record that is %s, and says where', (_, text, where) => {
    expect(refusal(text)).toMatchObject({ kind: 'book', code: 'RECORD_DAMAGED' });
    expect(String(refusal(text))).toContain(where);
  });

  it('[BK2] refuses names given twice and names of what is not there', () => {
    const record = larkfieldUnit();
    const problems = problemsInRecord({
      ...record,
      trials: [...record.trials, { name: 'Frosted', windows: ['dial'], strings: [{ name: 's', lamps: ['top'] }] }],
      photos: [
        {
          ...record.photos[0],
          role: 'trial',
          trial: undefined,
          corners: { dial: record.photos[0].corners?.['scale'] },
        },
      ],
      chosen: { trial: 'Lacquered' },
    });
    expect(problems).toEqual([
      'trials[2].name: the name "Frosted" is taken by trials[1]; give each its own',
      'trials[2].windows[0]: there is no window "dial"',
      'trials[2].strings[0].lamps[0]: there is no lamp "top"',
      'photos[0].trial: is missing: which trial does it show?',
      'photos[0].corners.dial: there is no window "dial"',
      'chosen.trial: there is no trial "Lacquered"',
    ]);
  });

  it('[BK3] refuses a newer record by its version', () => {
    const newer = refusal(changed((r) => Object.assign(r, { version: 99, colour: 3 })));
    expect(newer).toMatchObject({ kind: 'book', code: 'RECORD_TOO_NEW' });
    expect(String(newer)).toContain(`version 99; this program reads up to version ${unitVersion}`);
  });

  it('[BK4] reads a record that was stored in version 1', () => {
    const stored = readFileSync('tests/unit/book/data/unit-version-1.json', 'utf8');
    expect(readRecord(stored, 'unit.json')).toEqual(larkfieldUnit());
  });

  it('[BK4] takes numbered steps one after the other, on a copy', () => {
    const stored = { version: 1, lamp: { name: 'left' } };
    const kept = JSON.stringify(stored);
    const steps = {
      1: ({ lamp, ...rest }: Readonly<Record<string, unknown>>) => ({ ...rest, lamps: [lamp] }),
      2: (record: Readonly<Record<string, unknown>>) => ({ ...record, parts: [] }),
    };
    expect(migrateRecord(stored, 1, 3, steps)).toEqual({ version: 3, lamps: [{ name: 'left' }], parts: [] });
    expect(JSON.stringify(stored)).toBe(kept);
    expect(() => migrateRecord(stored, 1, 4, steps)).toThrow('no migration from version 3');
    expect(Object.keys(migrations).map(Number)).toEqual(Array.from({ length: unitVersion - 1 }, (_, i) => i + 1));
  });

  it('[BK11] unit.schema.json is the schema of the validator', () => {
    const written: unknown = JSON.parse(readFileSync('core/book/unit.schema.json', 'utf8'));
    // After a change of the record: `evendial unit schema` prints it anew.
    expect(written).toEqual(JSON.parse(JSON.stringify(recordSchema())));
  });
});
