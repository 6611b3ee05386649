import { createHash, type Hash } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { readdir, stat } from 'node:fs/promises';
import path from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { AppError } from '../../../base/errors';
import type { BenchPhoto } from '../../../contract/bench';
import type { WatchShown } from '../../../contract/watch';
import { photoMissing, photoUnreadable } from '../../decode/photo-errors';
import { EngineStopped } from '../../engine/run-task';
import { benchErrorOf } from '../bench-error';
import { WatchLedger, type SeenFile } from './ledger';

/** A folder is looked into this often, and after a look that took long, less often. */
const lookEveryMs = 250;
/** Names of files that the page is told of; of more only the number. */
const mostNames = 100;

/** What the watch has done with what arrives. */
export interface WatchPorts {
  /** Keeps a copy: the file may be written over or taken away. @returns its place */
  readonly keep: (name: string, bytes: AsyncIterable<Uint8Array>) => Promise<string>;
  readonly forget: (place: string) => Promise<void>;
  /** Resolves when the photo can be decoded to its last row. @throws AppError of kind photo */
  readonly decode: (place: string, name: string) => Promise<void>;
  readonly lay: (place: string, name: string) => Promise<BenchPhoto>;
  /** Something is to be shown. */
  readonly onChange: () => void;
  readonly onDefect: (error: unknown) => void;
}

const isDiskError = (error: unknown): error is NodeJS.ErrnoException =>
  error instanceof Error && 'syscall' in error && 'code' in error;

function whyGone({ code }: NodeJS.ErrnoException): string {
  if (code === 'ENOENT') return 'it is not there';
  if (code === 'ENOTDIR') return 'it is no folder';
  return code === 'EACCES' || code === 'EPERM' ? 'it may not be read' : 'the system refuses it';
}

/** The plain files of a folder; its folders, links and devices are passed over. */
async function filesIn(folder: string): Promise<SeenFile[]> {
  const entries = await readdir(folder, { withFileTypes: true });
  const files: SeenFile[] = [];
  for (const entry of entries) {
    if (!entry.isFile()) continue;
    const facts = await stat(path.join(folder, entry.name)).catch((error: unknown) => {
      // Taken away between the two looks.
      if (isDiskError(error) && error.code === 'ENOENT') return null;
      throw error;
    });
    if (facts) files.push({ name: entry.name, sizeBytes: facts.size, modifiedMs: facts.mtimeMs });
  }
  return files;
}

/** What lies in a folder that is to be watched. @throws AppError WATCH_FOLDER_UNUSABLE */
export async function firstLook(folder: string): Promise<SeenFile[]> {
  try {
    return await filesIn(folder);
  } catch (error) {
    if (!isDiskError(error)) throw error;
    const message = `the folder ${path.basename(folder)} cannot be watched: ${whyGone(error)}`;
    throw new AppError('usage', 'WATCH_FOLDER_UNUSABLE', message, 'Name a folder that is there and may be read.');
  }
}

/**
 * A folder whose new photos are laid on the bench: each when it is whole, once, in the order in which they came. Looked at again
 * and again, since network drives and synchronising programs do not tell of changes.
 *
 * @rule WF1, WF2, WF3
 */
export class WatchedFolder {
  readonly #stop = new AbortController();
  readonly #laid: BenchPhoto[] = [];
  /** Checksums of what has been laid, and of what could not be decoded with why. */
  readonly #known = new Set<string>();
  readonly #damaged = new Map<string, unknown>();
  #repeated = 0;
  #gone: string | null = null;
  #shown = '';
  #running: Promise<void> = Promise.resolve();

  private constructor(
    readonly folder: string,
    readonly ledger: WatchLedger,
    readonly ports: WatchPorts,
  ) {}

  /** @throws AppError WATCH_FOLDER_UNUSABLE */
  static async start(folder: string, ports: WatchPorts): Promise<WatchedFolder> {
    const place = path.resolve(folder);
    const watch = new WatchedFolder(place, new WatchLedger(await firstLook(place)), ports);
    watch.#running = watch.#run().catch((error: unknown) => {
      watch.#gone = 'a defect of the program stopped the watch';
      watch.#tell();
      ports.onDefect(error);
    });
    return watch;
  }

  async #run(): Promise<void> {
    const { signal } = this.#stop;
    while (!signal.aborted) {
      const started = performance.now();
      const ready = await this.#look();
      this.#tell();
      for (const file of ready) {
        if (signal.aborted) return;
        await this.#take(file);
        this.#tell();
      }
      const took = ready.length > 0 ? 0 : performance.now() - started;
      await pause(Math.max(lookEveryMs, 4 * took), undefined, { signal, ref: false }).catch(() => undefined);
    }
  }

  async #look(): Promise<SeenFile[]> {
    try {
      const files = await filesIn(this.folder);
      this.#gone = null;
      return this.ledger.look(files, performance.now());
    } catch (error) {
      if (!isDiskError(error)) throw error;
      this.#gone = whyGone(error);
      return [];
    }
  }

  async #take(file: SeenFile): Promise<void> {
    try {
      await this.#lay(file);
      this.ledger.done(file);
    } catch (error) {
      // A photo that brings the engine down is none that can be read; the engine starts again.
      if (!(error instanceof AppError) && !(error instanceof EngineStopped)) throw error;
      this.ledger.failed(file, error, performance.now());
    }
  }

  /** The bytes of a file, on their way through a checksum. @throws AppError PHOTO_MISSING, PHOTO_UNREADABLE */
  async *#bytesOf(name: string, hash: Hash): AsyncIterable<Uint8Array> {
    try {
      for await (const part of createReadStream(path.join(this.folder, name)) as AsyncIterable<Uint8Array>) {
        hash.update(part);
        yield part;
      }
    } catch (error) {
      if (!isDiskError(error)) throw error;
      throw error.code === 'ENOENT' ? photoMissing(name) : photoUnreadable(name, whyGone(error));
    }
  }

  /** @throws AppError of kind photo or usage; EngineStopped */
  async #lay({ name }: SeenFile): Promise<void> {
    const hash = createHash('sha256');
    const place = await this.ports.keep(name, this.#bytesOf(name, hash));
    const sum = hash.digest('hex');
    try {
      if (this.#known.has(sum)) {
        this.#repeated++;
        return await this.ports.forget(place);
      }
      if (this.#damaged.has(sum)) throw this.#damaged.get(sum);
      await this.ports.decode(place, name).catch((error: unknown) => {
        if (error instanceof AppError && error.kind === 'photo') this.#damaged.set(sum, error);
        throw error;
      });
      this.#laid.push(await this.ports.lay(place, name));
      this.#known.add(sum);
    } catch (error) {
      await this.ports.forget(place);
      throw error;
    }
  }

  /** Says that something is to be shown, when something is. */
  #tell(): void {
    const shown = JSON.stringify(this.shown());
    if (shown === this.#shown) return;
    this.#shown = shown;
    this.ports.onChange();
  }

  shown(): WatchShown {
    return {
      folder: path.basename(this.folder) || this.folder,
      gone: this.#gone,
      before: this.ledger.before,
      laid: this.#laid.length,
      repeated: this.#repeated,
      others: this.ledger.others,
      arriving: this.ledger.arriving().slice(0, mostNames),
      notTaken: this.ledger
        .notTaken()
        .slice(0, mostNames)
        .map(({ name, error }) => ({ name, error: benchErrorOf(error) })),
    };
  }

  /** Every photo that was laid, in the order in which they came. */
  get laid(): readonly BenchPhoto[] {
    return this.#laid;
  }

  async close(): Promise<void> {
    this.#stop.abort();
    await this.#running;
  }
}
