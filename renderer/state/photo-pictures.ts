import type { PhotoId, PhotoRegion } from '../../core/contract/bench';
import type { BenchLink } from '../link/bench-link';
import { LatestKept } from './latest-kept';

/** A photo for the screen; up to 12 megapixels it has every pixel of the file, for the magnifier. */
export interface PhotoPicture {
  readonly bitmap: ImageBitmap;
  readonly photoWidthPx: number;
  readonly photoHeightPx: number;
}

const mostSidePx = 4096;

/** Pictures of the photos last looked at, and no more: each may take 50 MB. */
export class PhotoPictures {
  readonly #kept = new LatestKept<PhotoId, Promise<PhotoPicture>>(2);

  constructor(readonly link: BenchLink) {}

  /** Rejects with CallFailed. */
  get(photo: PhotoId): Promise<PhotoPicture> {
    const kept = this.#kept.get(photo);
    if (kept) return kept;
    const picture = this.#load(photo, null);
    this.#kept.set(photo, picture);
    picture.catch(() => this.#kept.delete(photo));
    return picture;
  }

  async #load(photo: PhotoId, region: PhotoRegion | null): Promise<PhotoPicture> {
    const { width, height, rgba, photoWidthPx, photoHeightPx } = await this.link.call('pixels', {
      photo,
      mostSidePx,
      region,
    });
    const pixels = new ImageData(new Uint8ClampedArray(rgba), width, height);
    return { bitmap: await createImageBitmap(pixels), photoWidthPx, photoHeightPx };
  }
}
