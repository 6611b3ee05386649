import type { PhotoEntry, Reading } from '../contract/readings';
import { exposureValue100 } from '../photo/exposure';
import { completeExposure } from '../photo/exposure-of';
import { sharedErrorOfLikePhotos } from './pairs';

/** Exposures nearer than this count as equal, EV. */
export const likeExposureEv = 1 / 3;
/** Windows of photos framed alike lie so near, as a share of the photo's width. */
const likeFraming = 0.05;

type Place = Pick<Reading, 'photos' | 'outline'>;

/** The name of the camera as far as the files tell it; null without one. */
export function cameraOf({ camera }: PhotoEntry): string | null {
  return camera.make === undefined && camera.model === undefined ? null : `${camera.make ?? ''} ${camera.model ?? ''}`;
}

/**
 * Difference of two exposures in EV, positive when b gave the sensor more light; null when either is not known.
 *
 * @source APEX
 * @rule PR2
 */
export function exposureDifferenceEv(a: PhotoEntry, b: PhotoEntry): number | null {
  const [ofA, ofB] = [completeExposure(a.camera), completeExposure(b.camera)];
  return ofA && ofB ? exposureValue100(ofA) - exposureValue100(ofB) : null;
}

/** Both frames have one size and every corner of the window lies within 5 % of the width of the other's. */
function isFramedAlike(a: Place, b: Place): boolean {
  const [photoA, photoB] = [a.photos[0], b.photos[0]];
  if (photoA.widthPx !== photoB.widthPx || photoA.heightPx !== photoB.heightPx) return false;
  const limit = likeFraming * photoA.widthPx;
  return a.outline.cornersPx.every(([x, y], i) => {
    const [otherX, otherY] = b.outline.cornersPx[i];
    return Math.hypot(x - otherX, y - otherY) <= limit;
  });
}

/**
 * The share of their error that two readings of one window have in common: 0.8 when camera, exposure (within 1/3 EV), white
 * balance, decoding and framing agree, else 0. Two photos without a camera's name share nothing.
 *
 * @source our own choice, after rendered pairs: an unknown tone curve bends both alike
 * @rule PR2
 */
export function sharedError(a: Place, b: Place): number {
  const [photoA, photoB] = [a.photos[0], b.photos[0]];
  const camera = cameraOf(photoA);
  if (camera === null || camera !== cameraOf(photoB)) return 0;
  const ev = exposureDifferenceEv(photoA, photoB);
  if (ev === null || Math.abs(ev) > likeExposureEv + 1e-9) return 0;
  if (photoA.camera.whiteBalance !== photoB.camera.whiteBalance) return 0;
  if (photoA.encoding !== photoB.encoding || photoA.format !== photoB.format) return 0;
  return isFramedAlike(a, b) ? sharedErrorOfLikePhotos : 0;
}
