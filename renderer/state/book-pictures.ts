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

/** What could not be had, as while a program restarts, is asked for again so much later, when it is looked at. */
const failurePauseMs = 5000;

interface Kept {
  /** Of the record that it was asked for with: what it is made from may change with every revision. */
  readonly revision: number;
  /** undefined while the first is on its way; null: there is none. */
  readonly picture: ImageData | null | undefined;
  readonly isGoodUntilMs: number;
}

/** Straightened windows of photos in the book, asked for when they come into view. */
export class BookPictures {
  /** Raised whenever one arrives, so that the screens look again. */
  readonly arrived = signal(0);
  readonly #kept = new LatestKept<string, Kept>(mostThumbnails);
  readonly #queue = new WorkQueue(askedAtOnce);

  constructor(
    readonly link: BenchLink,
    readonly nowMs = (): number => performance.now(),
  ) {}

  /**
   * @param revision  of the unit's record; the picture of an older one is shown until the newer arrives
   * @returns undefined while it is on its way, null when there is none
   */
  of(asked: ThumbnailAsked, revision: number): ImageData | null | undefined {
    const key = keyOf(asked);
    const kept = this.#kept.get(key);
    if (kept?.revision === revision && this.nowMs() < kept.isGoodUntilMs) return kept.picture;
    this.#kept.set(key, { revision, picture: kept?.picture, isGoodUntilMs: Infinity });
    // The last asked for is in view: what was scrolled past can wait.
    this.#queue.add(key, () => this.#load(key, asked, revision), true);
    return kept?.picture;
  }

  async #load(key: string, asked: ThumbnailAsked, revision: number): Promise<void> {
    const loaded = await this.#loaded(asked);
    // One of a newer revision is on its way.
    if (this.#kept.get(key)?.revision !== revision) return;
    this.#kept.set(key, { revision, ...loaded });
    this.arrived.value++;
  }

  async #loaded(asked: ThumbnailAsked): Promise<Omit<Kept, 'revision'>> {
    try {
      const pixels = await this.link.call('unitThumbnail', asked);
      const picture = pixels && new ImageData(new Uint8ClampedArray(pixels.rgba), pixels.width, pixels.height);
      return { picture, isGoodUntilMs: Infinity };
    } catch (error) {
      // The card says in words what it stands for; a photo that cannot be read is told of where the unit is measured.
      if (!(error instanceof CallFailed)) throw error;
      return { picture: null, isGoodUntilMs: this.nowMs() + failurePauseMs };
    }
  }
}
