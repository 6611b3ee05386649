import type { AskedEdits } from './book-state';
import { holdsTexts, isObject, keptList, type Kept, type KeptStorage } from './kept-text';

const key = 'evendial-unsaved';

/** Edits that are not in the book yet, kept on this machine until they are: the host may end, or its disk be full. */
export class KeptEdits {
  constructor(readonly storage: KeptStorage & Pick<Storage, 'removeItem'>) {}

  /** Left over from the last time. */
  left(): Kept<readonly AskedEdits[]> {
    return keptList(this.storage, key, isAskedEdits);
  }

  keep(unsaved: readonly AskedEdits[]): void {
    if (unsaved.length === 0) this.storage.removeItem(key);
    else this.storage.setItem(key, JSON.stringify(unsaved));
  }
}

/** As far as the screens look at it; what an edit may hold is checked by the host. */
function isAskedEdits(given: unknown): given is AskedEdits {
  if (!isObject(given)) return false;
  const { edits } = given;
  const areTexts = holdsTexts(given, ['unit', 'unitName', 'what']);
  return areTexts && Array.isArray(edits) && edits.every((edit) => isObject(edit) && typeof edit['kind'] === 'string');
}
