import { AppError } from '../../../base/errors';
import type { BenchPhoto, PhotoId } from '../../../contract/bench';
import type { WatchRead, WatchShown } from '../../../contract/watch';
import { WatchedFolder, type WatchPorts } from './watched-folder';

/** The one folder that the bench watches, and what earlier ones have laid. */
export class BenchWatch {
  #watch: WatchedFolder | null = null;
  /** Of folders that are watched no more. */
  #earlier: readonly BenchPhoto[] = [];

  constructor(
    readonly ports: WatchPorts,
    /** Whether a photo still lies on the bench. */
    readonly isOnBench: (photo: PhotoId) => boolean,
    /** The host's own dialog; null: it has none. */
    readonly chooseFolder: (() => Promise<string | null>) | null,
  ) {}

  /** Watches this folder from now on, and no other. @throws AppError WATCH_FOLDER_UNUSABLE */
  async start(folder: string): Promise<WatchShown> {
    const watch = await WatchedFolder.start(folder, this.ports);
    await this.stop();
    this.#watch = watch;
    this.ports.onChange();
    return watch.shown();
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
    const photos = [...this.#earlier, ...(this.#watch?.laid ?? [])];
    return {
      watch: this.#watch?.shown() ?? null,
      photos: photos.slice(after).filter(({ id }) => this.isOnBench(id)),
      upTo: photos.length,
    };
  }

  /** Photos that were laid stay on the bench. */
  async stop(): Promise<void> {
    const watch = this.#watch;
    if (!watch) return;
    await watch.close();
    this.#earlier = [...this.#earlier, ...watch.laid];
    this.#watch = null;
    this.ports.onChange();
  }
}
