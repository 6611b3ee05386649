/** An item without one of its keys; the item itself is not altered. */
export function withoutKey<T extends object, Key extends keyof T>(item: T, key: Key): Omit<T, Key> {
  return Object.fromEntries(Object.entries(item).filter(([name]) => name !== key)) as Omit<T, Key>;
}
