/** A store of large things by key that forgets the one used longest ago. */
export class LatestKept<Key, Value> {
  readonly #kept = new Map<Key, Value>();

  constructor(readonly most: number) {}

  get(key: Key): Value | undefined {
    const value = this.#kept.get(key);
    if (value !== undefined) {
      this.#kept.delete(key);
      this.#kept.set(key, value);
    }
    return value;
  }

  set(key: Key, value: Value): void {
    this.#kept.delete(key);
    this.#kept.set(key, value);
    for (const oldest of this.#kept.keys()) {
      if (this.#kept.size <= this.most) return;
      this.#kept.delete(oldest);
    }
  }

  delete(key: Key): void {
    this.#kept.delete(key);
  }
}
