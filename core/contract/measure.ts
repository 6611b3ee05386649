import type { Plane, Mask } from '../base/plane';
import type { Corners, PhotoPoint } from '../base/points';
import type { ComparableFacts } from './comparable';
import type { OutlineShape } from './outline';
import type { Encoding, LightKind, PrintKind, RoomKind } from './light';
import type { FailedReading, Reading } from './readings';
import type { StoredResponse } from './response';
import type { WindowPoint } from '../base/points';

/** Exposure as the user states it, where EXIF lacks it. */
export interface StatedExposure {
  readonly exposureS?: number;
  readonly fNumber?: number;
  readonly iso?: number;
}

/** A photo to be read. `file` is what the user called it; `path` is for the port that opens files, opaque to the engine. */
export interface PhotoRef {
  readonly file: string;
  readonly path: string;
  readonly encoding: Encoding;
  /** true when the user stated the encoding: then the response counts as known. */
  readonly encodingStated: boolean;
  readonly exposure: StatedExposure;
}

/** One lit opening of a unit, as the user describes it. */
export interface WindowSpec {
  readonly name: string;
  readonly widthMm: number;
  readonly heightMm: number;
  /** false: 60 mm wide was assumed, so mm figures are relative. */
  readonly sizeKnown: boolean;
  readonly shape: OutlineShape;
  readonly print: PrintKind;
  /** Polygons that never count as glow: a pivot, a screw. */
  readonly leaveOut: readonly (readonly WindowPoint[])[];
  /** Print that the user painted where the engine cannot see it. */
  readonly paintedRed: readonly (readonly WindowPoint[])[];
  readonly paintedDark: readonly (readonly WindowPoint[])[];
}

export interface WindowInPhoto {
  /** Size left out: null, the engine takes 60 mm and the corners' mean side ratio. */
  readonly spec: Omit<WindowSpec, 'widthMm' | 'heightMm' | 'sizeKnown'>;
  readonly sizeMm: { readonly widthMm: number; readonly heightMm: number } | null;
  /** null: the best outline that the search finds in the photo. */
  readonly corners: Corners | null;
  /** false: the search may decide between a rectangle and an ellipse. */
  readonly isShapeStated?: boolean;
}

/** A window whose place in the photo is known, and how sure the search was when it found it. */
export interface LocatedWindow extends WindowInPhoto {
  readonly corners: Corners;
  readonly searchConfidence?: number;
  /** The corners were carried over from another photo of the series by the print. */
  readonly isCarriedOver?: boolean;
  /** What is left between the window's print and that of the series' first photo, mm; left out: not registered. */
  readonly registrationMm?: number;
  /** Why the window could not be registered; left out: it was, or there was nothing to register it to. */
  readonly notRegistered?: string;
}

/** One photo of one trial (or of the reference), with every window that it shows. */
export interface MeasureJob {
  readonly role: 'trial' | 'reference';
  /** Of a reference: its one window is what every window of the trials is compared with. */
  readonly standsForAll?: true;
  readonly name: string;
  readonly photo: PhotoRef;
  readonly light: LightKind;
  readonly windows: readonly WindowInPhoto[];
  /** The photos of an exposure series of one scene, `photo` the first of them: measured as one. Left out: `photo` alone. */
  readonly bracket?: readonly PhotoRef[];
  /**
   * The bracket may be none: without three different exposure times its photos are shots taken again, of which `photo`
   * counts.
   */
  readonly isPerhapsBracket?: true;
  /** The camera's tone curve as it was recovered before; used where it fits the photo. */
  readonly response?: StoredResponse;
  /** The same windows with their print well seen, by room light perhaps; only the place of the print is taken from it. */
  readonly printPhoto?: PhotoRef;
  /** Of the one window in the print photo, upright pixels; left out: the search looks for it, which needs a lit window. */
  readonly printPhotoCorners?: Corners;
  /** Lamps off, same room, same settings; what its file does not tell of its exposure is as stated for the photo. */
  readonly lampOff?: PhotoRef;
  /** An evenly lit sheet, same lens settings. */
  readonly flatField?: PhotoRef;
  /** Around a patch that did not change from photo to photo, upright photo pixels. */
  readonly witnessPx?: readonly PhotoPoint[];
}

/** Mean light of a patch that did not change between photos. */
export interface WitnessPatch {
  /** Y = 1 at full scale. */
  readonly xyz: readonly [number, number, number];
  /** Of its mean, k = 1. */
  readonly relUncertainty: number;
}

export interface MeasureRequest {
  readonly jobs: readonly MeasureJob[];
  readonly room: RoomKind;
  readonly viewingDistanceMm: number;
  /** The jobs show the same windows: later photos take corners and print over from the first. */
  readonly isSeries?: boolean;
  /** Also give the planes that maps and pictures are made from; left out: not. */
  readonly withMaps?: boolean;
}

/** What the pictures and map files are made from; planes as documented where they are computed. */
export interface ReadingMaps {
  readonly widthMm: number;
  readonly heightMm: number;
  /** 4 cells a mm: relative luminance, exposure-normalised when that is known; NaN where a cell is no glow. */
  readonly glowLuminance: Plane;
  readonly exposureNormalised: boolean;
  /** 4 cells a mm: the same light with the print filled in by its surroundings, for pictures; NaN outside the outline. */
  readonly filledLuminance: Plane;
  /** 4 cells a mm: CIE 1976 u' and v'; NaN where a cell is no glow. */
  readonly uPrime: Plane;
  readonly vPrime: Plane;
  /** 4 cells a mm: what the eye sees of the unevenness, ln units, positive = too bright; NaN where no glow. Null when refused. */
  readonly visibleUnevenness: Plane | null;
  /** 10 cells a mm. */
  readonly redPrint: Mask;
  readonly darkPrint: Mask;
  /** 10 cells a mm: what is no glow because of print, its blurred edge with it; with lit figures all but those. */
  readonly coveredByPrint: Mask;
  /** The evenness was taken from green, because red or blue is clipped. */
  readonly isFromGreen: boolean;
  /** 10 cells a mm, interleaved linear sRGB, 1 = full scale. */
  readonly window: { readonly width: number; readonly height: number; readonly rgb: Float32Array };
}

export interface MeasuredWindow {
  readonly role: 'trial' | 'reference';
  readonly reading: Reading;
  readonly facts: ComparableFacts;
  /** null when the request did not ask for them. */
  readonly maps: ReadingMaps | null;
  /** Recovered from the job's exposure series without a doubt, with what it holds for; left out: not. */
  readonly response?: StoredResponse;
  /** Of the photo, or why it could not be measured; left out: no patch was named. */
  readonly witness?: WitnessPatch | { readonly reason: string };
}

/** A measured window whose maps were asked for, to look at. */
export interface MappedWindow extends Omit<MeasuredWindow, 'facts'> {
  readonly maps: ReadingMaps;
}

export interface FailedWindow {
  readonly role: 'trial' | 'reference';
  /** Of the job. */
  readonly name: string;
  /** null: none of the photo's windows could be measured. */
  readonly window: string | null;
  readonly failed: FailedReading;
  /** What the command line's exit code follows. */
  readonly kind: 'photo' | 'outline';
}

/** Photos whose lit windows are to be found. */
export interface FindRequest {
  readonly photos: readonly PhotoRef[];
}

export interface FoundOutline {
  readonly corners: Corners;
  readonly outline: 'rectangle' | 'ellipse';
  /** 0..1; from 0.5 on it is taken for a lit window. */
  readonly confidence: number;
}

/** What the search found in one photo, best first; or why it could not be read. */
export type FoundPhoto =
  | {
      readonly file: string;
      readonly widthPx: number;
      readonly heightPx: number;
      readonly candidates: readonly FoundOutline[];
    }
  | FailedReading;

/** In the order of the jobs, and of the windows within each job; a photo that cannot be read gives one FailedWindow. */
export interface MeasureResult {
  readonly windows: readonly (MeasuredWindow | FailedWindow)[];
}

export interface MeasureProgress {
  readonly file: string;
  readonly step: 'decode' | 'measure' | 'done';
  readonly photosDone: number;
  readonly photosInAll: number;
}
