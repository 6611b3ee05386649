import { signal } from '@preact/signals';
import type { UnitId } from '../../core/contract/book-verbs';
import type { BenchLink } from '../link/bench-link';
import { CallFailed } from '../link/bench-link';
import { LatestKept } from './latest-kept';
import { WorkQueue } from './work-queue';

/** Of a photo of a unit, for a window; null: of the chosen trial, else the reference, in the first window. */
export interface ThumbnailAsked {
  readonly unit: UnitId;
  readonly sha256: string | null;
  readonly window: string | null;
}

/** 320 px across: 80 KB each for a long scale. */
const mostThumbnails = 400;
const askedAtOnce = 2;

const keyOf = ({ unit, sha256, window }: ThumbnailAsked): string => JSON.stringify([unit, sha256, window]);

/** Straightened windows of photos in the book, asked for when they come into view. */
export class BookPictures {
  /** Raised whenever one arrives, so that the screens look again. */
  readonly arrived = signal(0);
  /** 'none': the host has none to give, and will not have one while the page lives. */
  readonly #kept = new LatestKept<string, ImageData | 'none' | 'asked'>(mostThumbnails);
  readonly #queue = new WorkQueue(askedAtOnce);

  constructor(readonly link: BenchLink) {}

  /** @returns undefined while it is on its way, null when there is none */
  of(asked: ThumbnailAsked): ImageData | null | undefined {
    const key = keyOf(asked);
    const kept = this.#kept.get(key);
    if (kept === undefined) {
      this.#kept.set(key, 'asked');
      // The last asked for is in view: what was scrolled past can wait.
      this.#queue.add(key, () => this.#load(key, asked), true);
    }
    if (kept === 'none') return null;
    return kept === 'asked' ? undefined : kept;
  }

  async #load(key: string, asked: ThumbnailAsked): Promise<void> {
    try {
      const pixels = await this.link.call('unitThumbnail', asked);
      const picture = pixels && new ImageData(new Uint8ClampedArray(pixels.rgba), pixels.width, pixels.height);
      this.#kept.set(key, picture ?? 'none');
    } catch (error) {
      // The card says in words what it stands for; a photo that cannot be read is told of where the unit is measured.
      if (!(error instanceof CallFailed)) throw error;
      this.#kept.set(key, 'none');
    }
    this.arrived.value++;
  }
}
