import type { PhotoId } from '../../core/contract/bench';
import type { BenchLink } from '../link/bench-link';
import { LatestKept } from './latest-kept';

/** A photo for the screen. */
export interface PhotoPicture {
  readonly bitmap: ImageBitmap;
  readonly photoWidthPx: number;
  readonly photoHeightPx: number;
}

/** Enough to mark corners on, and there in a third of the time. */
const firstSidePx = 1400;
/** Up to 12 megapixels every pixel of the file, for the magnifier. */
const fullSidePx = 4096;

/** Pictures of the photos last looked at, and no more: each may take 50 MB. */
export class PhotoPictures {
  readonly #kept = new LatestKept<PhotoId, Promise<PhotoPicture>>(2);

  constructor(readonly link: BenchLink) {}

  /**
   * Shows the picture as soon as there is a small one, and again when it is there with all its pixels.
   *
   * @returns settles with the last one; rejects with CallFailed
   */
  async show(photo: PhotoId, onPicture: (picture: PhotoPicture) => void): Promise<void> {
    const kept = this.#kept.get(photo);
    if (kept) return onPicture(await kept);
    onPicture(await this.#load(photo, firstSidePx));
    const full = this.#load(photo, fullSidePx);
    this.#kept.set(photo, full);
    full.catch(() => this.#kept.delete(photo));
    onPicture(await full);
  }

  async #load(photo: PhotoId, mostSidePx: number): Promise<PhotoPicture> {
    const asks = { photo, mostSidePx, region: null };
    const { width, height, rgba, photoWidthPx, photoHeightPx } = await this.link.call('pixels', asks);
    const pixels = new ImageData(new Uint8ClampedArray(rgba), width, height);
    return { bitmap: await createImageBitmap(pixels), photoWidthPx, photoHeightPx };
  }
}
