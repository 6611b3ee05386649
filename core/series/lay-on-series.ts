import type { LinearPhoto } from '../base/linear-photo';
import { createMask } from '../base/plane';
import type { Corners } from '../base/points';
import type { LocatedWindow, MeasureJob } from '../contract/measure';
import type { CarriedPrint } from '../reading/carried-print';
import { windowPxPerMm } from '../reading/glow-view';
import { assumedSize } from '../window/corners';
import { homographyFromCorners } from '../window/homography';
import { printPolarityOf } from '../window/lit-print';
import { outlineMask } from '../window/outline';
import { printMaskOf } from '../window/print-mask';
import type { PrintMask, RectifiedWindow } from '../window/rectified';
import { rectifyWindow } from '../window/rectify';
import { confirmedPrint } from './confirmed-print';
import { followKnown } from './follow-known';
import { cornersByPrint, type KnownWindow, knownWindowOf, type Places } from './known-window';

/** Another photo of the same window. */
export interface OtherPhoto {
  readonly linear: LinearPhoto;
  /** Where this window may be in it. */
  readonly placesOf: (windowName: string) => Places;
}

export interface WindowToLay {
  readonly window: LocatedWindow;
  readonly role: MeasureJob['role'];
  /** Holds the window, and in a series 1.5 mm about it. */
  readonly linear: LinearPhoto;
  /** The window as the series' first photo showed it; null for the first, and outside a series. */
  readonly known: KnownWindow | null;
  readonly printPhoto: (OtherPhoto & { readonly file: string }) | null;
  /** For the first photo of a series: one under another light, to tell print from shadows. */
  readonly second: OtherPhoto | null;
  readonly isSeries: boolean;
}

/** A window as it is to be read, and what later photos take over from it. */
export interface LaidWindow {
  readonly window: LocatedWindow;
  readonly carriedPrint: CarriedPrint | null;
  readonly unusedPrintPhoto: string | null;
  readonly known: KnownWindow | null;
}

interface SeenPrint {
  readonly rectified: RectifiedWindow;
  readonly polarity: 'dark' | 'light' | 'none' | null;
  readonly mask: PrintMask;
}

type Size = { readonly widthMm: number; readonly heightMm: number };

/** What a photo shows of the window's print. */
function printIn(
  linear: LinearPhoto,
  corners: Corners,
  { spec }: LocatedWindow,
  { widthMm, heightMm }: Size,
): SeenPrint {
  const homography = homographyFromCorners(corners, widthMm, heightMm);
  const rectified = rectifyWindow(linear, homography, widthMm, heightMm, windowPxPerMm);
  const outline = outlineMask(spec.shape, widthMm, heightMm, windowPxPerMm, 0, 'centre');
  const polarity = spec.print === 'auto' ? printPolarityOf(rectified, outline) : spec.print;
  const isDark = polarity === 'dark';
  const none = createMask(outline.width, outline.height);
  return {
    rectified,
    polarity,
    mask: isDark ? printMaskOf(rectified, spec) : { dark: none, red: none, covered: none },
  };
}

/** The print as another photo shows it, laid on this window; null when it does not fit. */
function printFrom(other: OtherPhoto, known: KnownWindow, window: LocatedWindow): SeenPrint | null {
  const corners = cornersByPrint(known, other.linear, other.placesOf(window.spec.name));
  return corners && printIn(other.linear, corners, window, known);
}

/**
 * Lays a window on its series and finds where its print comes from, in this order: a print photo; the series' first photo;
 * for the first photo itself, what a second one under another light confirms; else the photo alone.
 *
 * Lit figures are never carried over: what glows is each photo's own.
 *
 * @rule SE5, SE6
 */
export function layOnSeries(given: WindowToLay): LaidWindow {
  const { known, printPhoto, isSeries } = given;
  if (!isSeries && !printPhoto) return { window: given.window, carriedPrint: null, unusedPrintPhoto: null, known };
  return known ? laterWindow(given, known) : firstWindow(given);
}

/** A window that the series knows: laid on it, its print the known one unless it has a print photo of its own. */
function laterWindow({ window: given, linear, printPhoto }: WindowToLay, known: KnownWindow): LaidWindow {
  const window = followKnown(given, known, linear);
  const isOnKnown = window.notRegistered === undefined;
  // A print photo is laid on the known print; without that, on nothing.
  const fromPhoto = printPhoto && isOnKnown && known.kind === 'dark' ? printFrom(printPhoto, known, window) : null;
  const carried = isOnKnown ? known.print : null;
  return {
    window,
    carriedPrint: fromPhoto ? { mask: fromPhoto.mask, from: 'printPhoto' } : carried,
    unusedPrintPhoto: printPhoto && !fromPhoto ? printPhoto.file : null,
    known,
  };
}

/** The first photo of a window: what it shows is remembered for the later ones. */
function firstWindow({ window, role, linear, printPhoto, second }: WindowToLay): LaidWindow {
  const size = window.sizeMm ?? assumedSize(window.corners);
  const own = printIn(linear, window.corners, window, size);
  const plain = { window, carriedPrint: null, unusedPrintPhoto: null, known: null };
  if (own.polarity === null || own.polarity === 'none') return plain;
  const known = knownWindowOf(window, size, linear, own.polarity, null);
  if (own.polarity === 'light') return { ...plain, known };
  const remembered = (mask: PrintMask, from: CarriedPrint['from']): KnownWindow => ({
    ...known,
    print: { mask, from: role === 'reference' ? 'reference' : from },
  });
  const fromPhoto = printPhoto && printFrom(printPhoto, known, window);
  if (fromPhoto) {
    const { mask } = fromPhoto;
    return { ...plain, carriedPrint: { mask, from: 'printPhoto' }, known: remembered(mask, 'printPhoto') };
  }
  const unusedPrintPhoto = printPhoto ? printPhoto.file : null;
  const fromSecond = second && printFrom(second, known, window);
  if (!fromSecond) {
    // One trial's print alone may be its shadows: the next finds its own.
    return { ...plain, unusedPrintPhoto, known: role === 'reference' ? remembered(own.mask, 'trials') : known };
  }
  const mask = confirmedPrint(own.mask, fromSecond.mask, fromSecond.rectified);
  return { window, carriedPrint: { mask, from: 'trials' }, unusedPrintPhoto, known: remembered(mask, 'trials') };
}
