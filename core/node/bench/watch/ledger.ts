/** A file as a look into the folder finds it. */
export interface SeenFile {
  readonly name: string;
  readonly sizeBytes: number;
  readonly modifiedMs: number;
}

/** Endings of photos that are decoded. A raw file beside its JPEG is none: it would be the same picture twice. */
const photoEnding = /\.(jpe?g|jpe|jfif|png|tiff?|webp|hei[cf]|hif|avif)$/i;

/** Hidden files are those of the system, and of programs that are still writing. */
const isHidden = (name: string): boolean => name.startsWith('.');
const isPhoto = (name: string): boolean => !isHidden(name) && photoEnding.test(name);

/** A file is read when size and time have stood still for so long. */
export const steadyMs = 200;
/**
 * One that cannot be read although it stands still is tried again after so long each, then no more until it changes: some
 * programs make the file in full size and fill it without a trace.
 */
export const retriesMs = [1000, 2000, 4000, 8000, 16_000, 32_000] as const;
/** From this try on the user is told; until then it is most likely still being written. */
const toldFromTry = 4;

interface Entry {
  readonly stamp: string;
  /** When it came into this state. */
  readonly sinceMs: number;
  readonly state: 'settling' | 'taken' | 'unread' | 'done';
  /** Times that it could not be read as it stands. */
  readonly tries: number;
  readonly error?: unknown;
}

const stampOf = ({ sizeBytes, modifiedMs }: SeenFile): string => `${sizeBytes} ${modifiedMs}`;

/** Of files that came together: by time, then by name as people count. */
const counting = new Intl.Collator('en', { numeric: true });
const byTime = (a: SeenFile, b: SeenFile): number => a.modifiedMs - b.modifiedMs || counting.compare(a.name, b.name);

/**
 * What is known of the files of a watched folder. A photo is handed out when it stands still, again when it has changed, and
 * again after a while when it could not be read. One that is away is not forgotten: a stick that is put back holds nothing new.
 *
 * @rule WF1, WF2
 */
export class WatchLedger {
  readonly #entries = new Map<string, Entry>();
  #others = 0;
  /** Photos that lay there before: left alone until they change. */
  readonly before: number;

  constructor(there: readonly SeenFile[]) {
    const photos = there.filter(({ name }) => isPhoto(name));
    for (const file of photos) {
      this.#entries.set(file.name, { stamp: stampOf(file), sinceMs: 0, state: 'done', tries: 0 });
    }
    this.before = photos.length;
    this.#countOthers(there);
  }

  #countOthers(files: readonly SeenFile[]): void {
    this.#others = files.filter(({ name }) => !isHidden(name) && !isPhoto(name)).length;
  }

  /** @returns photos that are ready to be read, the oldest first; each is to be settled by `done` or `failed` */
  look(files: readonly SeenFile[], nowMs: number): SeenFile[] {
    this.#countOthers(files);
    const names = new Set(files.map(({ name }) => name));
    for (const [name, { state }] of this.#entries) {
      // Gone before it was read: nothing is arriving any more.
      if (!names.has(name) && (state === 'settling' || state === 'unread')) this.#entries.delete(name);
    }
    return files.filter((file) => isPhoto(file.name) && this.#take(file, nowMs)).sort(byTime);
  }

  #take(file: SeenFile, nowMs: number): boolean {
    const entry = this.#entries.get(file.name);
    const stamp = stampOf(file);
    if (entry?.stamp !== stamp) {
      this.#entries.set(file.name, { stamp, sinceMs: nowMs, state: 'settling', tries: 0 });
      return false;
    }
    const waited = nowMs - entry.sinceMs;
    const waits = entry.state === 'settling' ? steadyMs : (retriesMs.at(entry.tries - 1) ?? Infinity);
    const isOpen = entry.state === 'settling' || (entry.state === 'unread' && entry.tries <= retriesMs.length);
    if (!isOpen || waited < waits || file.sizeBytes === 0) return false;
    this.#entries.set(file.name, { ...entry, sinceMs: nowMs, state: 'taken' });
    return true;
  }

  /** The photo has been read. */
  done(file: SeenFile): void {
    this.#settle(file, (entry) => ({ ...entry, state: 'done' }));
  }

  /** The photo could not be read yet, or at all. */
  failed(file: SeenFile, error: unknown, nowMs: number): void {
    this.#settle(file, (entry) => ({ ...entry, sinceMs: nowMs, state: 'unread', tries: entry.tries + 1, error }));
  }

  /** Of a photo that has changed meanwhile nothing is settled. */
  #settle(file: SeenFile, change: (entry: Entry) => Entry): void {
    const entry = this.#entries.get(file.name);
    if (entry?.state === 'taken' && entry.stamp === stampOf(file)) this.#entries.set(file.name, change(entry));
  }

  /** Files that are no photos, as last seen. */
  get others(): number {
    return this.#others;
  }

  /** Names of photos that are being written or read. */
  arriving(): string[] {
    return [...this.#entries].flatMap(([name, entry]) => (entry.state === 'done' || isTold(entry) ? [] : [name]));
  }

  /** Photos that cannot be read although they stand still. */
  notTaken(): { readonly name: string; readonly error: unknown }[] {
    return [...this.#entries].flatMap(([name, entry]) => (isTold(entry) ? [{ name, error: entry.error }] : []));
  }
}

const isTold = ({ state, tries }: Entry): boolean => state === 'unread' && tries >= toldFromTry;
