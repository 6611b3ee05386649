import type { UnitEdit } from '../contract/book-verbs';
import type { UnitRecord } from '../contract/unit-record';
import { askedWrongly } from './book-errors';
import { addTrial, addWindow, chooseTrial } from './edits';
import { problemsInRecord } from './read-record';
import { removePart, removePhoto, removeTrial, removeWindow } from './remove';
import { setField } from './set-field';

const removeFrom = { windows: removeWindow, trials: removeTrial, parts: removePart } as const;

function applyOne(record: UnitRecord, edit: UnitEdit): UnitRecord {
  switch (edit.kind) {
    case 'set':
      return setField(record, edit.field, edit.text);
    case 'add-window':
      return addWindow(record, edit.window);
    case 'add-trial': {
      const { name, light, like, mirrorTo } = edit;
      return addTrial(record, {
        name,
        ...(light === null ? {} : { light }),
        ...(like === null ? {} : { like }),
        ...(mirrorTo === null ? {} : { mirrorTo }),
      });
    }
    case 'choose-trial':
      return chooseTrial(record, edit.trial, edit.why === '' ? undefined : edit.why);
    case 'remove':
      return removeFrom[edit.list](record, edit.name);
    case 'remove-photo':
      return removePhoto(record, edit);
  }
}

/**
 * A record with one change of it made, or refused with the record as it was.
 *
 * @throws AppError  as the edits of `edits.ts`, `remove.ts` and `set-field.ts`; VALUE_INVALID with the place
 * @rule BK27
 */
export function applyEdit(record: UnitRecord, edit: UnitEdit): UnitRecord {
  const edited = applyOne(record, edit);
  const problems = problemsInRecord(edited);
  if (problems.length === 0) return edited;
  throw askedWrongly('VALUE_INVALID', problems.slice(0, 3).join('; '), 'Nothing was changed. Correct the value.');
}
