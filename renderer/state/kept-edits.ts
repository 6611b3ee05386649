import type { AskedEdits } from './book-state';

const key = 'evendial-unsaved';
/** What could not be read is put aside here, for who can read it. */
const damagedKey = 'evendial-unsaved-damaged';

export interface LeftOver {
  readonly edits: readonly AskedEdits[];
  /** There was more, in a form that this program cannot read. */
  readonly isDamaged: boolean;
}

/** Edits that are not in the book yet, kept on this machine until they are: the host may end, or its disk be full. */
export class KeptEdits {
  constructor(readonly storage: Pick<Storage, 'getItem' | 'setItem' | 'removeItem'>) {}

  /** Left over from the last time. */
  left(): LeftOver {
    const text = this.storage.getItem(key);
    if (text === null) return { edits: [], isDamaged: false };
    const given = listIn(text);
    const edits = (given ?? []).filter(isAskedEdits);
    const isDamaged = edits.length !== given?.length;
    if (isDamaged) {
      this.storage.setItem(damagedKey, text);
      this.keep(edits);
    }
    return { edits, isDamaged };
  }

  keep(unsaved: readonly AskedEdits[]): void {
    if (unsaved.length === 0) this.storage.removeItem(key);
    else this.storage.setItem(key, JSON.stringify(unsaved));
  }
}

/** null: there is none. */
function listIn(text: string): readonly unknown[] | null {
  try {
    const given: unknown = JSON.parse(text);
    return Array.isArray(given) ? given : null;
  } catch (error) {
    if (!(error instanceof SyntaxError)) throw error;
    return null;
  }
}

const isObject = (given: unknown): given is Readonly<Record<string, unknown>> =>
  typeof given === 'object' && given !== null;

/** As far as the screens look at it; what an edit may hold is checked by the host. */
function isAskedEdits(given: unknown): given is AskedEdits {
  if (!isObject(given)) return false;
  const { unit, unitName, what, edits } = given;
  const areTexts = [unit, unitName, what].every((text) => typeof text === 'string');
  return areTexts && Array.isArray(edits) && edits.every((edit) => isObject(edit) && typeof edit['kind'] === 'string');
}
