import type { AskedEdits } from './book-state';

const key = 'evendial-unsaved';

/** Edits that are not in the book yet, kept on this machine until they are: the host may end, or its disk be full. */
export class KeptEdits {
  constructor(readonly storage: Pick<Storage, 'getItem' | 'setItem' | 'removeItem'>) {}

  /** Left over from the last time; what is kept in a form of another version is given up. */
  left(): readonly AskedEdits[] {
    const given: unknown = JSON.parse(this.storage.getItem(key) ?? '[]');
    return Array.isArray(given) ? given.filter(isAskedEdits) : [];
  }

  keep(unsaved: readonly AskedEdits[]): void {
    if (unsaved.length === 0) this.storage.removeItem(key);
    else this.storage.setItem(key, JSON.stringify(unsaved));
  }
}

function isAskedEdits(given: unknown): given is AskedEdits {
  return typeof given === 'object' && given !== null && 'unit' in given && 'what' in given && 'edits' in given;
}
