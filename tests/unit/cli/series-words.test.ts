import { describe, expect, it } from 'vitest';
import { valueAt, wrongChoiceWords, wrongTypeWords } from '../../../core/contract/series-problems';

describe('words for what is wrong in a series file', () => {
  it('[SE1] name a type as a person writes it', () => {
    expect(['array', 'tuple', 'object', 'number', 'date'].map(wrongTypeWords)).toEqual([
      'must be a list in [ ]',
      'must be a list in [ ]',
      'must be an object in { }',
      'must be a number',
      'must be date',
    ]);
  });

  it('[SE1] quote what was written instead of a choice', () => {
    expect(wrongChoiceWords(['dark', 'lit'], 'drak')).toBe('must be one of "dark", "lit", not "drak"');
    expect(wrongChoiceWords([1], undefined)).toBe('must be 1');
    expect(wrongChoiceWords(['dark'], 'x'.repeat(99)).length).toBeLessThan(90);
  });

  it('[SE1] find what stands at a place, and nothing where there is none or only an inherited one', () => {
    const document = { trials: [{ light: 'sun' }] };
    const of = (...path: PropertyKey[]): unknown => valueAt(document, path);
    expect([of('trials', 0, 'light'), of('trials', 1, 'light'), of('trials', 0, 'light', 'x'), of('toString')]).toEqual(
      ['sun', undefined, undefined, undefined],
    );
  });
});
