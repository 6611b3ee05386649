import type { PhotoRole } from '../../core/contract/unit-record';
import type { MeasuredPhotoOnBench, PhotoOnBench } from './bench-state';
import { takenAtMinutes } from './photo-groups';
import type { Plan } from './plans';

/**
 * Photos that may show what a plan came to: trials that came onto the bench after it was planned, and that the camera's clock
 * does not put before the newest that lay there then.
 *
 * @param photos of one window, newest first
 * @param roleOf what a photo is for
 */
export function triesSince(
  plan: Plan,
  photos: readonly MeasuredPhotoOnBench[],
  roleOf: (photo: PhotoOnBench) => PhotoRole,
): readonly MeasuredPhotoOnBench[] {
  const at = photos.findIndex(({ id }) => id === plan.after || id === plan.photo);
  if (at < 0) return [];
  const before = takenAtMinutes(photos[at]);
  return photos.slice(0, at).filter((photo) => {
    const taken = takenAtMinutes(photo);
    return roleOf(photo) === 'trial' && (before === null || taken === null || taken >= before);
  });
}
