import { describe, expect, it } from 'vitest';
import { setField } from '../../../../core/book/set-field';
import { AppError } from '../../../../core/base/errors';
import { wordsAtField } from '../../../../renderer/state/book-state';
import { larkfieldUnit } from '../../../support/unit-records';

describe('what is said at a field', () => {
  it('[SU10] has the reason and the remedy, without the key of the record', () => {
    const said = (path: string, text: string): string => {
      try {
        setField(larkfieldUnit(), path, text);
      } catch (error) {
        if (error instanceof AppError) return wordsAtField({ ...error, kind: 'usage', message: error.message });
        throw error;
      }
      throw new Error(`${path} was taken`);
    };
    expect(said('before.lamp.ratedV', 'eight')).toMatch(/^"eight" is not a number\. Give/);
    expect(said('trials["Bare, 8 mm"].lamps["left"].currentMa', '-1')).toMatch(/^must be 0 or more\. /);
    expect(said('after.recheckOn', 'tomorrow')).toMatch(/^must be a day/);
  });
});
