import { exposureValue100, type Exposure } from './exposure';

/** What decides whether a lamp-off photo may be subtracted. */
export interface LampOffSettings {
  /** null: not wholly known. */
  readonly exposure: Exposure | null;
  readonly focalLengthMm?: number;
}

/** Below this share of the lit photo's median there is no print to register by. @source our own choice */
const darkRoomBelow = 0.01;
/** Further apart, noise and the doubt about the tone curve outweigh what is subtracted. @source our own choice */
const mostStopsApart = 2;
/** A rounding of EXIF, not another setting. @source our own choice */
const settingTolerance = 0.01;

const differ = (a: number, b: number): boolean => Math.abs(a - b) > settingTolerance * Math.max(a, b);

/**
 * Whether the room was so dark that the lamp-off photo is subtracted without registration.
 *
 * @param litMedian  median luminance of the lit photo on the glow, above 0
 * @param offMedian  of the lamp-off photo there, already scaled to the lit photo's exposure
 * @source our own choice: under 1 %
 * @rule LU10
 */
export function isDarkRoom(litMedian: number, offMedian: number): boolean {
  return litMedian > 0 && offMedian < darkRoomBelow * litMedian;
}

/**
 * Why the camera settings of a lamp-off photo forbid subtracting it, or null when they allow it.
 *
 * Focal length counts only when both photos tell it.
 *
 * @returns a clause for a sentence, without a full stop
 * @throws RangeError for an impossible exposure
 * @source our own choice: both exposures known, same lens settings, at most 2 EV apart
 * @rule LU10
 */
export function lampOffSettingsMismatch(lit: LampOffSettings, off: LampOffSettings): string | null {
  if (!lit.exposure) return 'the exposure of the lit photo is not known';
  if (!off.exposure) return 'the exposure of the lamp-off photo is not known';
  if (lit.focalLengthMm !== undefined && off.focalLengthMm !== undefined) {
    if (differ(lit.focalLengthMm, off.focalLengthMm)) return 'the focal lengths differ';
  }
  if (differ(lit.exposure.fNumber, off.exposure.fNumber)) return 'the f-numbers differ';
  const stops = Math.abs(exposureValue100(lit.exposure) - exposureValue100(off.exposure));
  // A hair of slack: 1/30 s against 1/7.5 s is two stops, whatever the last digit says.
  return stops > mostStopsApart + 1e-9 ? `the exposures are ${stops.toFixed(1)} EV apart` : null;
}
