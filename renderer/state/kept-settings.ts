import type { PhotoId } from '../../core/contract/bench';
import type { PhotoOnBench, ReadingSettings } from './bench-state';
import { firstSettings } from './settings';

const key = 'evendial-settings';

/** Corners and all else that was set, kept while the page's tab lives, so that loading it again loses nothing. */
export class KeptSettings {
  readonly #kept: Readonly<Record<PhotoId, ReadingSettings>>;

  constructor(readonly storage: Pick<Storage, 'getItem' | 'setItem'>) {
    this.#kept = JSON.parse(storage.getItem(key) ?? '{}') as Record<PhotoId, ReadingSettings>;
  }

  /** As they stood when the page was left; null for a photo that was not there. */
  of(photo: PhotoId): ReadingSettings | null {
    const kept = this.#kept[photo];
    return kept ? { ...firstSettings, ...kept } : null;
  }

  keep(photos: readonly PhotoOnBench[]): void {
    this.storage.setItem(key, JSON.stringify(Object.fromEntries(photos.map(({ id, settings }) => [id, settings]))));
  }
}
