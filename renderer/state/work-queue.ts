/** Work that is done a few at a time; what was asked for last can be put in front. */
export class WorkQueue {
  readonly #waiting: { readonly key: string; readonly work: () => Promise<void> }[] = [];
  #running = 0;

  constructor(readonly atOnce: number) {}

  /** Adds work; `first`: before everything that still waits. The work must not reject. */
  add(key: string, work: () => Promise<void>, first: boolean): void {
    this.drop(key);
    if (first) this.#waiting.unshift({ key, work });
    else this.#waiting.push({ key, work });
    this.#start();
  }

  /** Forgets waiting work. */
  drop(key: string): void {
    const at = this.#waiting.findIndex((entry) => entry.key === key);
    if (at >= 0) this.#waiting.splice(at, 1);
  }

  #start(): void {
    while (this.#running < this.atOnce) {
      const next = this.#waiting.shift();
      if (!next) return;
      this.#running++;
      void next.work().finally(() => {
        this.#running--;
        this.#start();
      });
    }
  }
}
