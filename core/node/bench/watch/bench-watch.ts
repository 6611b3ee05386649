import { AppError } from '../../../base/errors';
import type { BenchPhoto, PhotoId } from '../../../contract/bench';
import type { WatchRead, WatchShown } from '../../../contract/watch';
import { WatchedFolder, type WatchPorts } from './watched-folder';

/**
 * The one folder that the bench watches, and what earlier ones have laid.
 *
 * @rule WF5
 */
export class BenchWatch {
  #watch: WatchedFolder | null = null;
  /** Folders that are watched no more, in the order in which they were; the last one may still be laying its last photo. */
  readonly #earlier: WatchedFolder[] = [];
  /** The last start or stop that was asked for: the next one waits for it, so that no watch runs on unseen. */
  #last: Promise<unknown> = Promise.resolve();

  constructor(
    readonly ports: WatchPorts,
    /** Whether a photo still lies on the bench. */
    readonly isOnBench: (photo: PhotoId) => boolean,
    /** The host's own dialog; null: it has none. */
    readonly chooseFolder: (() => Promise<string | null>) | null,
  ) {}

  /** Watches this folder from now on, and no other. @throws AppError WATCH_FOLDER_UNUSABLE */
  start(folder: string): Promise<WatchShown> {
    return this.#inTurn(async () => {
      const watch = await WatchedFolder.start(folder, this.ports);
      await this.#end();
      this.#watch = watch;
      this.ports.onChange();
      return watch.shown();
    });
  }

  /** @throws AppError WATCH_NO_DIALOG, WATCH_FOLDER_UNUSABLE */
  async choose(): Promise<WatchShown | null> {
    if (this.chooseFolder === null) {
      const message = 'A browser cannot choose the folder.';
      const remedy = "Name it when you start: 'evendial serve --watch FOLDER'.";
      throw new AppError('usage', 'WATCH_NO_DIALOG', message, remedy);
    }
    const folder = await this.chooseFolder();
    return folder === null ? null : this.start(folder);
  }

  read(after: number): WatchRead {
    const watches = this.#watch ? [...this.#earlier, this.#watch] : this.#earlier;
    const photos: BenchPhoto[] = watches.flatMap(({ laid }) => laid);
    return {
      watch: this.#watch?.shown() ?? null,
      photos: photos.slice(after).filter(({ id }) => this.isOnBench(id)),
      upTo: photos.length,
    };
  }

  /** Photos that were laid stay on the bench. */
  stop(): Promise<void> {
    return this.#inTurn(() => this.#end());
  }

  async #end(): Promise<void> {
    const watch = this.#watch;
    if (!watch) return;
    this.#watch = null;
    this.#earlier.push(watch);
    this.ports.onChange();
    await watch.close();
  }

  #inTurn<T>(act: () => Promise<T>): Promise<T> {
    const turn = this.#last.then(act);
    // Its failure is told to whoever asked for it.
    this.#last = turn.catch(() => undefined);
    return turn;
  }
}
