import { AppError } from '../base/errors';
import type { LocatedWindow, WindowSpec } from '../contract/measure';
import type { PhotoFacts } from '../photo/decoded-photo';
import { assumedSize, checkCorners, viewShare } from '../window/corners';
import { homographyFromCorners, pxPerMmOf, type Homography } from '../window/homography';
import { aspectFromCorners, tiltDeg } from '../window/viewing-pose';

/** A window with its place in one photo. */
export interface PlacedWindow {
  readonly spec: WindowSpec;
  readonly corners: LocatedWindow['corners'];
  /** 0..1; absent when the corners were given. */
  readonly searchConfidence?: number;
  /** As in `LocatedWindow`. */
  readonly isCarriedOver?: boolean;
  readonly registrationMm?: number;
  readonly notRegistered?: string;
  readonly homography: Homography;
  readonly pxPerMm: number;
  readonly tiltDeg: number;
  readonly viewShare: number;
  /** |side ratio from the corners / stated side ratio - 1|; null when the size is not known. */
  readonly aspectError: number | null;
  /** The stated size would fit the corners with width and height exchanged. */
  readonly isSizeSwapped: boolean;
}

/** A larger window would need more memory than a figure is worth: 300 x 300 mm is 9 million cells. */
const largestAreaMm2 = 90_000;

function checkArea(widthMm: number, heightMm: number): void {
  if (widthMm * heightMm <= largestAreaMm2) return;
  throw new AppError(
    'outline',
    'WINDOW_TOO_LARGE',
    `A window of ${Math.round(widthMm)} x ${Math.round(heightMm)} mm is larger than what can be measured (300 x 300 mm).`,
    'Check the size: it is in mm, width x height. Larger windows are measured in parts.',
  );
}

const aspectErrorOf = (aspect: number, widthMm: number, heightMm: number): number =>
  Math.abs((aspect * heightMm) / widthMm - 1);

/** How the corners came about, as far as it is known. */
function placeFacts({ searchConfidence, isCarriedOver, registrationMm, notRegistered }: LocatedWindow) {
  return {
    ...(searchConfidence === undefined ? {} : { searchConfidence }),
    ...(isCarriedOver === undefined ? {} : { isCarriedOver }),
    ...(registrationMm === undefined ? {} : { registrationMm }),
    ...(notRegistered === undefined ? {} : { notRegistered }),
  };
}

/**
 * Puts a window into a photo: size, homography and how it is seen.
 *
 * @throws AppError of kind outline, for impossible corners or a window that is too large
 * @rule RD1
 */
export function placeWindow(window: LocatedWindow, facts: PhotoFacts): PlacedWindow {
  const { corners, sizeMm } = window;
  checkCorners(corners, facts.widthPx, facts.heightPx);
  const { widthMm, heightMm } = sizeMm ?? assumedSize(corners);
  checkArea(widthMm, heightMm);
  const homography = homographyFromCorners(corners, widthMm, heightMm);
  const focalLength = facts.focalLength35Mm ?? null;
  const aspect = aspectFromCorners(corners, facts.widthPx, facts.heightPx, focalLength);
  return {
    spec: { ...window.spec, widthMm, heightMm, sizeKnown: sizeMm !== null },
    corners,
    ...placeFacts(window),
    homography,
    pxPerMm: pxPerMmOf(homography, widthMm, heightMm),
    tiltDeg: tiltDeg(corners, facts.widthPx, facts.heightPx, focalLength),
    viewShare: viewShare(corners, facts.widthPx, facts.heightPx),
    aspectError: sizeMm ? aspectErrorOf(aspect, widthMm, heightMm) : null,
    isSizeSwapped:
      sizeMm !== null &&
      aspectErrorOf(aspect, widthMm, heightMm) > 0.5 &&
      aspectErrorOf(aspect, heightMm, widthMm) < 0.15,
  };
}
