import type { LinearPhoto } from '../base/linear-photo';
import type { LocatedWindow } from '../contract/measure';
import { refinedCorners, registerWindow } from '../registration/register-window';
import { registrationImageOf } from '../registration/registration-image';
import { homographyFromCorners } from '../window/homography';
import type { KnownWindow } from './known-window';

/**
 * A window with its corners moved to where the print of the known window lies, so that both are read on the same mm; or with
 * the reason why they stay.
 *
 * @param linear holds the window and 1.5 mm about it
 * @rule SE5
 */
export function followKnown(window: LocatedWindow, known: KnownWindow, linear: LinearPhoto): LocatedWindow {
  const { widthMm, heightMm } = known;
  const homography = homographyFromCorners(window.corners, widthMm, heightMm);
  const found = registerWindow(known.image, registrationImageOf(linear, { ...known, homography }));
  if (!found.passed) return { ...window, notRegistered: found.message };
  const corners = refinedCorners(found, homography, widthMm, heightMm);
  return { ...window, corners, registrationMm: found.errorMm };
}
