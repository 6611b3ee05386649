/** Where the page keeps what would be lost when it is loaded again. */
export type KeptStorage = Pick<Storage, 'getItem' | 'setItem'>;

export interface Kept<Whole> {
  readonly kept: Whole;
  /** There was more, in a form that this program cannot read. */
  readonly isDamaged: boolean;
}

type Check<Item> = (given: unknown) => given is Item;

export const isObject = (given: unknown): given is Readonly<Record<string, unknown>> =>
  typeof given === 'object' && given !== null && !Array.isArray(given);

/** Whether all of these keys hold text. */
export const holdsTexts = (given: Readonly<Record<string, unknown>>, keys: readonly string[]): boolean =>
  keys.every((key) => typeof given[key] === 'string');

/**
 * A list as the page kept it, as far as its items can be read. What cannot be is put aside under the same key with
 * `-damaged` after it, for who can read it, and is not met again.
 */
export function keptList<Item>(storage: KeptStorage, key: string, isItem: Check<Item>): Kept<readonly Item[]> {
  return keptAs(storage, key, (given) => {
    const all: readonly unknown[] = Array.isArray(given) ? given : [];
    const kept = all.filter(isItem);
    return { kept, isDamaged: !Array.isArray(given) || kept.length < all.length };
  });
}

/** As `keptList`, of items under names. */
export function keptByName<Item>(
  storage: KeptStorage,
  key: string,
  isItem: Check<Item>,
): Kept<Readonly<Record<string, Item>>> {
  return keptAs(storage, key, (given) => {
    const all = isObject(given) ? Object.entries(given) : [];
    const kept = all.filter((entry): entry is [string, Item] => isItem(entry[1]));
    return { kept: Object.fromEntries(kept), isDamaged: !isObject(given) || kept.length < all.length };
  });
}

function keptAs<Whole>(storage: KeptStorage, key: string, read: (given: unknown) => Kept<Whole>): Kept<Whole> {
  const text = storage.getItem(key);
  if (text === null) return { ...read(undefined), isDamaged: false };
  const found = read(parsed(text));
  if (found.isDamaged) {
    storage.setItem(`${key}-damaged`, text);
    storage.setItem(key, JSON.stringify(found.kept));
  }
  return found;
}

/** undefined: it is no JSON. */
function parsed(text: string): unknown {
  try {
    return JSON.parse(text) as unknown;
  } catch (error) {
    if (!(error instanceof SyntaxError)) throw error;
    return undefined;
  }
}
