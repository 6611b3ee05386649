import type { LinearPhoto } from '../base/linear-photo';
import type { Corners } from '../base/points';
import type { CarriedOutline } from '../contract/carry';
import type { WindowInPhoto } from '../contract/measure';
import { registerWindow } from '../registration/register-window';
import { assumedSize } from '../window/corners';
import { homographyFromCorners } from '../window/homography';
import { printPolarityOf } from '../window/lit-print';
import { outlineMask } from '../window/outline';
import { rectifyWindow } from '../window/rectify';
import { luminanceWeights } from '../window/rgb-weights';
import { windowPxPerMm } from '../reading/glow-view';
import { asInPhotoOf, cornersByPrint, knownWindowOf, type KnownWindow } from './known-window';

/** A photo to find the window in. */
export interface SoughtIn {
  /** The whole photo, perhaps reduced; corners are in its pixels. */
  readonly linear: LinearPhoto;
  /** Lit windows that a search finds, surest first; asked for only when the print is not where it was. */
  readonly searched: () => readonly { readonly corners: Corners; readonly confidence: number }[];
}

type Size = { readonly widthMm: number; readonly heightMm: number };

/** A window without print is taken to be the one that is found within this share of the photo's width. */
const sameFraming = 0.05;
/**
 * With less of the light than this the lamp may be off: other lamps at the same exposure give a quarter, a lamp that is off
 * leaves 8 % in a room that is lit as brightly as a lamp-off photo can be used for.
 */
const darkBelow = 0.15;
/** From here on the search takes what it found for a lit window. */
const sureEnough = 0.5;

/** Mean light of a window's face; null outside the photo. */
function meanLight(linear: LinearPhoto, corners: Corners, { widthMm, heightMm }: Size): number | null {
  const window = rectifyWindow(linear, homographyFromCorners(corners, widthMm, heightMm), widthMm, heightMm, 1);
  let [sum, count] = [0, 0];
  for (let i = 0; i < window.red.values.length; i++) {
    const light =
      luminanceWeights[0] * window.red.values[i] +
      luminanceWeights[1] * window.green.values[i] +
      luminanceWeights[2] * window.blue.values[i];
    if (Number.isNaN(light)) continue;
    sum += light;
    count++;
  }
  return count > 0 ? sum / count : null;
}

function isNear(a: Corners, b: Corners, photo: LinearPhoto): boolean {
  const limit = sameFraming * photo.widthPx;
  return a.every(({ column, row }, i) => Math.hypot(column - b[i].column, row - b[i].row) <= limit);
}

/** The window as its photo shows it; null when nothing of it can be print. */
function knownOf(from: LinearPhoto, window: WindowInPhoto & { readonly corners: Corners }, size: Size) {
  const { spec, corners } = window;
  const { widthMm, heightMm } = size;
  const homography = homographyFromCorners(corners, widthMm, heightMm);
  const rectified = rectifyWindow(from, homography, widthMm, heightMm, windowPxPerMm);
  const outline = outlineMask(spec.shape, widthMm, heightMm, windowPxPerMm, 0, 'centre');
  const polarity = spec.print === 'auto' ? printPolarityOf(rectified, outline) : spec.print;
  if (polarity === null || polarity === 'none') return null;
  return knownWindowOf({ ...window, corners }, size, from, polarity, null);
}

/** Laid on itself a window fails only for want of print. */
const hasPrint = ({ image }: KnownWindow): boolean => registerWindow(image, image).passed;

/**
 * Carries a window's outline over to another photo: by its print, from where the camera would see it had it not moved, else from
 * what a search finds. A window without print is taken to be the lit one that a search finds where it was. Anything else is not
 * carried, and the reason is given.
 *
 * @param from  holds the window and 1.5 mm about it
 * @param exposureRatio  light that the sensor was given for `to` over that for `from`; 1 when it is not known
 * @source our own choice
 * @rule SE8
 */
export function carryOutline(
  window: WindowInPhoto & { readonly corners: Corners },
  from: LinearPhoto,
  to: SoughtIn,
  exposureRatio: number,
): CarriedOutline {
  const size = window.sizeMm ?? assumedSize(window.corners);
  const photo = { widthPx: from.widthPx, heightPx: from.heightPx };
  const there = asInPhotoOf({ corners: window.corners, photo }, to.linear);
  const before = meanLight(from, window.corners, size);
  const lightAt = (corners: Corners | null): number | null => {
    const now = corners && meanLight(to.linear, corners, size);
    return now === null || before === null || !(before > 0) ? null : now / before / exposureRatio;
  };
  const lightOf = (corners: Corners | null): Pick<CarriedOutline, 'lightRatio' | 'isDark'> => {
    const lightRatio = lightAt(corners);
    return { lightRatio, isDark: lightRatio !== null && lightRatio < darkBelow };
  };
  let searched: ReturnType<SoughtIn['searched']> | null = null;
  const found = (): ReturnType<SoughtIn['searched']> => (searched ??= to.searched());
  const carried = (by: 'print' | 'search' | 'place', corners: Corners): CarriedOutline => ({
    by,
    cornersPx: corners.map(({ column, row }) => [column, row] as const),
    ...lightOf(corners),
  });
  const known = knownOf(from, window, size);
  const places = { given: [], searched: () => found().map(({ corners }) => corners) };
  const onPrint = known && cornersByPrint(known, to.linear, places);
  if (onPrint) return carried('print', onPrint);
  const lightThere = lightOf(there);
  if (there && lightThere.isDark) return carried('place', there);
  if (known && hasPrint(known)) {
    return { by: null, reason: 'the print of this window was not found in it', ...lightThere };
  }
  const near = there && found().find(({ corners }) => isNear(corners, there, to.linear));
  if (near && near.confidence >= sureEnough) return carried('search', near.corners);
  const reason = 'this window has no print to go by, and nothing lit was found in its place';
  return { by: null, reason, ...lightThere };
}
