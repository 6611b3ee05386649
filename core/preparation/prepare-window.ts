import type { RectifiedWindow } from '../window/rectified';
import { rectifyWindow } from '../window/rectify';
import type { FlatField } from './flat-field';
import { dividedBy, useFlatField, type FlatFieldUse } from './flat-field-use';
import { useLampOff, type LampOffUse } from './lamp-off-use';
import type { PhotoInLight, WindowPlace } from './photo-in-light';

/** The photos that say what in the lit photo is not the lamp's light behind the window. */
export interface HelperPhotos {
  readonly lampOff: PhotoInLight | null;
  readonly flatField: FlatField | null;
}

/** A window seen straight on, with the room's light subtracted and the lens's corners made good where that could be done. */
export interface PreparedWindow {
  readonly window: RectifiedWindow;
  /** null: there was no such photo. */
  readonly lampOff: LampOffUse | null;
  readonly flatField: FlatFieldUse | null;
}

/**
 * Straightens a window and prepares its light: first the room's light is subtracted, then both are divided by the lens's
 * share. A helper photo that does not fit is left aside, and why is told.
 *
 * @param pxPerMm  cells a mm of the window
 * @source light adds, a lens multiplies; the order follows
 * @rule CP1, CP3
 */
export function prepareWindow(
  lit: PhotoInLight,
  helpers: HelperPhotos,
  place: WindowPlace,
  pxPerMm: number,
): PreparedWindow {
  const straight = rectifyWindow(lit.linear, place.homography, place.widthMm, place.heightMm, pxPerMm);
  const { window, use } = helpers.lampOff
    ? useLampOff(lit, helpers.lampOff, place, straight)
    : { window: straight, use: null };
  const flatField = helpers.flatField && useFlatField(lit, helpers.flatField, place, window);
  if (flatField?.state !== 'divided') return { window, lampOff: use, flatField };
  const { lens } = flatField;
  const lampOff = use?.state === 'subtracted' ? { ...use, room: dividedBy(use.room, lens) } : use;
  return { window: dividedBy(window, lens), lampOff, flatField };
}
