import type { PhotoId } from '../../core/contract/bench';
import type { PhotoRole } from '../../core/contract/unit-record';
import type { MeasuredPhotoOnBench, PhotoOnBench } from './bench-state';
import { noTry, type TryText } from './mix-form';
import type { Plan } from './plans';
import { triesSince } from './tries-since';

const isSame = (one: readonly string[], other: readonly string[]): boolean =>
  one.length === other.length && one.every((name, i) => name === other[i]);

/**
 * Planned mixes of these lamps that were built and photographed: photo, and the currents that their resistors let flow.
 *
 * @param plans newest first
 * @param photos of one window, newest first
 * @param lamps names in the order of the form
 * @returns newest first, each photo once
 */
export function mixedTries(
  plans: readonly Plan[],
  photos: readonly MeasuredPhotoOnBench[],
  roleOf: (photo: PhotoOnBench) => PhotoRole,
  lamps: readonly string[],
): readonly TryText[] {
  const tries = new Map<PhotoId, TryText>();
  for (const plan of plans) {
    if (!plan.mix || !isSame(plan.mix.lamps, lamps)) continue;
    const photo = triesSince(plan, photos, roleOf).at(-1);
    if (!photo || tries.has(photo.id)) continue;
    const currents = plan.mix.currentsMa.map((mA) => String(Number(mA.toPrecision(4))));
    tries.set(photo.id, { ...noTry, by: { photo: photo.id }, currents });
  }
  return [...tries.values()];
}
