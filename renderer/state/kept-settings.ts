import type { PhotoId } from '../../core/contract/bench';
import type { PhotoOnBench, ReadingSettings } from './bench-state';
import { holdsTexts, isObject, keptByName, type KeptStorage } from './kept-text';
import { firstSettings } from './settings';

const key = 'evendial-settings';

/** Corners and all else that was set, kept while the page's tab lives, so that loading it again loses nothing. */
export class KeptSettings {
  readonly isDamaged: boolean;
  readonly #kept: Readonly<Record<PhotoId, ReadingSettings>>;

  constructor(readonly storage: KeptStorage) {
    const { kept, isDamaged } = keptByName(storage, key, isSettings);
    this.#kept = kept;
    this.isDamaged = isDamaged;
  }

  /** As they stood when the page was left; null for a photo that was not there. */
  of(photo: PhotoId): ReadingSettings | null {
    const kept = this.#kept[photo];
    return kept ? { ...firstSettings, ...kept } : null;
  }

  /** Photos in the order in which they stood when the page was left; those that were not there first. */
  inOrder<Photo extends { readonly id: PhotoId }>(photos: readonly Photo[]): Photo[] {
    const stood = Object.keys(this.#kept);
    return [...photos].sort((a, b) => stood.indexOf(a.id) - stood.indexOf(b.id));
  }

  keep(photos: readonly PhotoOnBench[]): void {
    this.storage.setItem(key, JSON.stringify(Object.fromEntries(photos.map(({ id, settings }) => [id, settings]))));
  }
}

const isPoint = (given: unknown): boolean =>
  Array.isArray(given) && given.length === 2 && given.every((part) => typeof part === 'number');

/** As far as the screens look at it; the host checks all that it is asked. */
function isSettings(given: unknown): given is ReadingSettings {
  if (!isObject(given) || !holdsTexts(given, ['light', 'room'])) return false;
  const { window, helpers } = given;
  if (!isObject(window) || !isObject(helpers)) return false;
  const { cornersPx, leaveOut, paintedRed, paintedDark } = window;
  const arePoints = cornersPx === null || (Array.isArray(cornersPx) && cornersPx.every(isPoint));
  return arePoints && [leaveOut, paintedRed, paintedDark].every(Array.isArray);
}
