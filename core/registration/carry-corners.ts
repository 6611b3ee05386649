import type { LinearPhoto } from '../base/linear-photo';
import type { Corners } from '../base/points';
import { homographyFromCorners } from '../window/homography';
import { refinedCorners, registerWindow } from './register-window';
import { type RegistrationImage, registrationImageOf, type WindowToRegister } from './registration-image';

/** A window as an earlier photo showed it. */
export interface WindowPrint extends Omit<WindowToRegister, 'homography'> {
  readonly image: RegistrationImage;
}

/** The camera may have moved so far, as a share of the window's longer side and at the most. */
const reachShare = 0.1;
const mostReachMm = 8;

/**
 * Finds a window in a photo where nobody set its corners, by the print that an earlier photo showed.
 *
 * From each start in turn (the earlier photo's corners, what a search found) it is registered with a reach of a tenth of the
 * longer side (8 mm at the most); what passes is registered once more from the corners found, within the usual 1.5 mm.
 *
 * @param photo a region that holds all starts
 * @returns the first corners that pass twice; null when none do
 * @source our own choice
 * @rule RG6
 */
export function carryCorners(known: WindowPrint, photo: LinearPhoto, starts: Iterable<Corners>): Corners | null {
  const { widthMm, heightMm } = known;
  const reachMm = Math.min(mostReachMm, reachShare * Math.max(widthMm, heightMm));
  const pass = (corners: Corners, limitMm?: number): Corners | null => {
    const homography = homographyFromCorners(corners, widthMm, heightMm);
    const found = registerWindow(known.image, registrationImageOf(photo, { ...known, homography }), limitMm);
    return found.passed ? refinedCorners(found, homography, widthMm, heightMm) : null;
  };
  for (const start of starts) {
    const near = pass(start, reachMm);
    const confirmed = near && pass(near);
    if (confirmed) return confirmed;
  }
  return null;
}
