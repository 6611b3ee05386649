import type { StatedExposure } from '../contract/measure';
import type { CameraFacts } from '../contract/readings';
import type { Exposure } from './exposure';

/** The camera's facts with what the user stated in the place of what EXIF lacks or has wrong. @rule RD3 */
export function withStatedExposure(camera: CameraFacts, stated: StatedExposure): CameraFacts {
  return { ...camera, ...stated };
}

/** The exposure when all three of its parts are known, else null. @rule RD3 */
export function completeExposure({ exposureS, fNumber, iso }: CameraFacts): Exposure | null {
  if (exposureS === undefined || fNumber === undefined || iso === undefined) return null;
  return { exposureS, fNumber, iso };
}
