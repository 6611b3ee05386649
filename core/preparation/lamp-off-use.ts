import { createMask, type Mask, type Plane } from '../base/plane';
import type { Corners, WindowPoint } from '../base/points';
import { medianOf, percentilesOf } from '../base/stats';
import { completeExposure } from '../photo/exposure-of';
import { type ColourPlanes, lampOffScale, subtractLampOff } from '../photo/lamp-off';
import { isDarkRoom, lampOffSettingsMismatch } from '../photo/lamp-off-fit';
import { homographyFromCorners, photoPointOf } from '../window/homography';
import { outlineMask } from '../window/outline';
import type { RectifiedWindow } from '../window/rectified';
import { rectifyWindow } from '../window/rectify';
import { luminancePlane } from './luminance-plane';
import type { PhotoInLight, WindowPlace } from './photo-in-light';
import { matchStructure, type StructureMatch } from './structure-match';

/** What became of a lamp-off photo: subtracted, or refused with a clause that says why. */
export type LampOffUse =
  | {
      readonly state: 'subtracted';
      /** The room's light on the window's grid, at the exposure of the lamp-off photo. */
      readonly room: ColourPlanes;
      /** What it was multiplied by. */
      readonly scale: number;
      /** Share of the lit cells that are darker than the room alone: they came out as 0. */
      readonly negativeShare: number;
      /** Values of all channels and cells, print and rim too, that came out below 0 and were set to 0. */
      readonly negatives: number;
      /** null: the room was dark, or nothing is printed. */
      readonly registration: StructureMatch | null;
    }
  | { readonly state: 'refused'; readonly reason: string };

/** Cells a mm at which the print of both photos is compared. */
const structurePxPerMm = 5;
/** The rim, which moves with every millimetre of parallax, is not compared. */
const rimMm = 0.5;
/** A photo that correlates less shows another place, or no print. @source our own choice, from rendered photos */
const leastCorrelation = 0.9;
/** Further apart, the print's edges no longer meet. @source our own choice */
const largestShiftMm = 0.3;
/** A smaller shift is within what the match can tell, and laying a photo anew blurs it. @source our own choice */
const smallestShiftMm = 0.02;
/** More of the lit cells clipped says nothing of the room's light. @source our own choice */
const mostClipped = 0.005;
/** A lamp-off photo that is nearly as bright as the lit one shows lamps that burn. @source our own choice */
const lampsOnFrom = 0.9;
/** Cells with less of the 95th percentile are print or the ground of a black dial. @source our own choice */
const litFrom = 0.25;

const refused = (reason: string): LampOffUse => ({ state: 'refused', reason });

/** What the notes of both photos say against it, or null. */
function notesMismatch(lit: PhotoInLight, off: PhotoInLight): string | null {
  if (off.sha256 === lit.sha256) return 'it is the lit photo itself';
  const size = ({ linear }: PhotoInLight): string => `${linear.widthPx} x ${linear.heightPx} px`;
  if (size(off) !== size(lit)) return `its frame is ${size(off)}, that of the lit photo ${size(lit)}`;
  const cameras = [lit, off].map(({ camera }) => camera.model);
  if (cameras[0] !== undefined && cameras[1] !== undefined && cameras[0] !== cameras[1]) {
    return 'it is from another camera';
  }
  const settings = ({ camera }: PhotoInLight) => ({
    exposure: completeExposure(camera),
    ...(camera.focalLengthMm === undefined ? {} : { focalLengthMm: camera.focalLengthMm }),
  });
  return lampOffSettingsMismatch(settings(lit), settings(off));
}

/** Cells of the outline that are lit: a stand-in for the glow, which is known only after the subtraction. */
function litCells(luminance: Plane, outline: Mask): Mask {
  const inside = luminance.values.filter((value, i) => outline.values[i] === 1 && Number.isFinite(value));
  const least = litFrom * percentilesOf(inside, [95])[0];
  const cells = createMask(luminance.width, luminance.height);
  luminance.values.forEach((value, i) => {
    if (outline.values[i] && value >= least) cells.values[i] = 1;
  });
  return cells;
}

const valuesIn = (plane: Plane, cells: Mask): Float32Array =>
  plane.values.filter((value, i) => cells.values[i] === 1 && Number.isFinite(value));

function shareOf(cells: Mask, holds: (cell: number) => boolean): number {
  let [all, held] = [0, 0];
  cells.values.forEach((inside, i) => {
    if (!inside) return;
    all += 1;
    if (holds(i)) held += 1;
  });
  return all ? held / all : 0;
}

const shiftOf = ({ shiftMm }: StructureMatch): number => Math.hypot(shiftMm.xMm, shiftMm.yMm);

/** The window's corners in the lamp-off photo, which may have been taken a hair aside. */
function movedCorners({ homography, widthMm, heightMm }: WindowPlace, { xMm, yMm }: WindowPoint): Corners {
  const at = (x: number, y: number) => photoPointOf(homography, { xMm: x + xMm, yMm: y + yMm });
  return [at(0, 0), at(widthMm, 0), at(widthMm, heightMm), at(0, heightMm)];
}

/** Where the window lies in the lamp-off photo: a match, null when nothing is printed, or a clause against it. */
function registered(lit: PhotoInLight, off: PhotoInLight, place: WindowPlace): StructureMatch | string | null {
  const { homography, widthMm, heightMm, shape } = place;
  const luminance = ({ linear }: PhotoInLight): Plane =>
    luminancePlane(rectifyWindow(linear, homography, widthMm, heightMm, structurePxPerMm));
  const within = outlineMask(shape, widthMm, heightMm, structurePxPerMm, rimMm, 'whole');
  const match = matchStructure(luminance(lit), luminance(off), within, structurePxPerMm);
  if (!match) return null;
  if (!(match.correlation >= leastCorrelation)) {
    return `the print does not lie where it lies in the lit photo (correlation ${match.correlation.toFixed(2)}, 0.90 is needed)`;
  }
  const shift = shiftOf(match);
  return shift > largestShiftMm ? `the frame moved by ${shift.toFixed(1)} mm` : match;
}

/**
 * Subtracts the room's light, which the lamp-off photo shows, from a window; or says why that cannot be done.
 *
 * A lamp-off photo that is black on the glow (under 1 % of the lit one) is subtracted as it lies: it shows no print to
 * register by. Otherwise the print must correlate by 0.9 and lie within 0.3 mm, and what shift is left is made good.
 *
 * @param window  the lit window seen straight on; not altered
 * @returns the window without the room's light, values 0 or more, beside what was done; the window itself when refused
 * @source light adds; limits our own choice, from rendered photos
 * @rule CP1
 */
export function useLampOff(
  lit: PhotoInLight,
  off: PhotoInLight,
  place: WindowPlace,
  window: RectifiedWindow,
): { window: RectifiedWindow; use: LampOffUse } {
  const mismatch = notesMismatch(lit, off);
  const [litExposure, offExposure] = [completeExposure(lit.camera), completeExposure(off.camera)];
  if (mismatch !== null || !litExposure || !offExposure) return { window, use: refused(mismatch ?? 'no exposure') };
  const { widthMm, heightMm, shape } = place;
  const { pxPerMm } = window;
  const roomAt = (corners: Corners): RectifiedWindow =>
    rectifyWindow(off.linear, homographyFromCorners(corners, widthMm, heightMm), widthMm, heightMm, pxPerMm);
  let room = roomAt(place.corners);
  const litLuminance = luminancePlane(window);
  const cells = litCells(litLuminance, outlineMask(shape, widthMm, heightMm, pxPerMm, 0, 'centre'));
  const { redClipped, greenClipped, blueClipped } = room;
  const clipped = shareOf(cells, (i) => Boolean(redClipped.values[i] | greenClipped.values[i] | blueClipped.values[i]));
  if (clipped > mostClipped) return { window, use: refused('it is overexposed') };
  const scale = lampOffScale(litExposure, offExposure);
  const litMedian = medianOf(valuesIn(litLuminance, cells));
  const offMedian = scale * medianOf(valuesIn(luminancePlane(room), cells));
  if (offMedian >= lampsOnFrom * litMedian) {
    return { window, use: refused('it is about as bright as the lit photo, as if the lamps burned') };
  }
  let registration: StructureMatch | null = null;
  if (!isDarkRoom(litMedian, offMedian)) {
    const found = registered(lit, off, place);
    if (typeof found === 'string') return { window, use: refused(found) };
    registration = found;
    if (found && shiftOf(found) > smallestShiftMm) room = roomAt(movedCorners(place, found.shiftMm));
  }
  const roomLuminance = luminancePlane(room);
  const negativeShare = shareOf(cells, (i) => litLuminance.values[i] < scale * roomLuminance.values[i]);
  const { red, green, blue, negatives } = subtractLampOff(window, room, scale);
  return {
    window: { ...window, red, green, blue },
    use: { state: 'subtracted', room, scale, negativeShare, negatives, registration },
  };
}
