import type { WindowPoint } from '../base/points';
import type { AddedArchive, BookVerbs } from './book-verbs';
import type { Comparison, Match } from './comparison';
import type { LightKind, PrintKind, RoomKind } from './light';
import type { FoundPhoto, MeasureProgress, ReadingMaps } from './measure';
import type { OutlineShape } from './outline';
import type { ErrorEntry, Reading } from './readings';
import type { WatchVerbs } from './watch';

/**
 * What the page may ask of its host, and what it is told. The Electron window and the browser's bench carry the same
 * verbs over different wires; the page never sees a path, a decoder or a photo file, only pixels and figures.
 */

/** Drawn at random by the host; says nothing about the file. */
export type PhotoId = string;

/** A photo that lies on the bench. */
export interface BenchPhoto {
  readonly id: PhotoId;
  /** The file's own name, without its folder. */
  readonly name: string;
  readonly sizeBytes: number;
  /** One of the invented sample photos. */
  readonly isSample: boolean;
}

/** Part of the upright photo, in its own pixels. */
export interface PhotoRegion {
  readonly column: number;
  readonly row: number;
  readonly width: number;
  readonly height: number;
}

/** How the window of one photo is to be read. Corners left null: as the search finds it. */
export interface WindowAsked {
  /** Top-left, top-right, bottom-right, bottom-left as one reads the window; photo pixels. */
  readonly cornersPx: readonly (readonly [number, number])[] | null;
  /** null: 60 mm wide is assumed. */
  readonly sizeMm: { readonly widthMm: number; readonly heightMm: number } | null;
  /** null: the search decides between a rectangle and an ellipse. */
  readonly shape: OutlineShape | null;
  readonly print: PrintKind;
  readonly leaveOut: readonly (readonly WindowPoint[])[];
  readonly paintedRed: readonly (readonly WindowPoint[])[];
  readonly paintedDark: readonly (readonly WindowPoint[])[];
}

/** Photos on the bench that another one is read with; null: none. */
export interface HelpersAsked {
  readonly lampOff: PhotoId | null;
  readonly flatField: PhotoId | null;
  readonly printPhoto: PhotoId | null;
}

/** One photo and all that is known of its window. */
export interface PhotoAsked {
  readonly photo: PhotoId;
  readonly window: WindowAsked;
  readonly light: LightKind;
  readonly helpers: HelpersAsked;
}

export interface MeasureAsked extends PhotoAsked {
  readonly room: RoomKind;
  readonly viewingDistanceMm: number;
  /** The same window by its filament lamps; null: there is no such photo. */
  readonly reference: PhotoAsked | null;
}

export interface MeasuredPhoto {
  readonly reading: Reading;
  readonly maps: ReadingMaps;
}

/** A user's error as the page shows it. */
export interface BenchError extends ErrorEntry {
  /** 'book': it cannot be read or written now; what was to be saved may go well when it is tried again. */
  readonly kind: 'photo' | 'outline' | 'cancelled' | 'usage' | 'book' | 'engine-stopped';
}

/** Upright pixels for the screen, sRGB, 4 bytes a pixel. */
export interface ScreenPixels {
  readonly width: number;
  readonly height: number;
  readonly rgba: Uint8ClampedArray;
  /** Of the whole upright photo. */
  readonly photoWidthPx: number;
  readonly photoHeightPx: number;
}

/** Linear light of a part of the photo, reduced by area, for following a dragged corner in the page. */
export interface LinearPart {
  readonly region: PhotoRegion;
  /** Photo pixels per pixel of this part, 1 or more, in both directions. */
  readonly reducedBy: number;
  readonly width: number;
  readonly height: number;
  /** Interleaved linear sRGB, 1 = full scale; unclipped. */
  readonly rgb: Float32Array;
}

export interface SavedFile {
  readonly name: string;
  readonly mediaType: string;
  readonly bytes: Uint8Array;
}

/** A shade as it is to be printed. */
export interface ShadePageAsked {
  readonly measure: MeasureAsked;
  /** mm; null: not known, only the shape. */
  readonly gapMm: number | null;
  /** The power of the transmission, above 0, up to 1. */
  readonly strength: number;
  readonly isMirrored: boolean;
  readonly form: 'pdf' | 'svg';
}

export interface SampleOffered {
  readonly name: string;
  /** A line about what it shows. */
  readonly title: string;
  readonly light: LightKind;
  readonly room: RoomKind;
  /** The window's true size. */
  readonly sizeMm: { readonly widthMm: number; readonly heightMm: number };
  /** Its true shape, where the search cannot know it: a covered part. */
  readonly shape?: OutlineShape;
}

export interface Hello {
  readonly version: string;
  readonly shell: 'desktop' | 'browser';
  /** Photos on the bench, so that a page loaded again finds them. */
  readonly photos: readonly BenchPhoto[];
  /** Sample photos that `addSamples` offers, with a line about each. */
  readonly samples: readonly SampleOffered[];
  /** A photo file may have this many bytes. */
  readonly mostPhotoBytes: number;
  /** A unit in one file may have this many. */
  readonly mostArchiveBytes: number;
  /** Units in one file that the program was opened with and that wait for being taken into the book. */
  readonly archives: readonly AddedArchive[];
}

/** Verb -> what it asks and answers. A verb that fails rejects with a BenchError. */
export interface BenchVerbs extends BookVerbs, WatchVerbs {
  readonly hello: { readonly asks: Record<string, never>; readonly answers: Hello };
  readonly addSamples: {
    readonly asks: { readonly names: readonly string[] };
    readonly answers: readonly BenchPhoto[];
  };
  /** Takes photos off the bench; the files stay where they are. */
  readonly removePhotos: { readonly asks: { readonly photos: readonly PhotoId[] }; readonly answers: null };
  readonly find: { readonly asks: { readonly photo: PhotoId }; readonly answers: FoundPhoto };
  readonly measure: { readonly asks: MeasureAsked; readonly answers: MeasuredPhoto };
  /** The photo, or a part of it, no larger than `mostSidePx` on its longer side. */
  readonly pixels: {
    readonly asks: { readonly photo: PhotoId; readonly mostSidePx: number; readonly region: PhotoRegion | null };
    readonly answers: ScreenPixels;
  };
  readonly linear: {
    readonly asks: { readonly photo: PhotoId; readonly region: PhotoRegion; readonly mostPixels: number };
    readonly answers: LinearPart;
  };
  /** The reading as files: the same JSON and CSV as the command line's, and its pictures. Measures again. */
  readonly exportReading: {
    readonly asks: { readonly measure: MeasureAsked; readonly what: 'json' | 'csv' | 'pictures' };
    readonly answers: readonly SavedFile[];
  };
  /** The page of a shade for a photo's window, true to size; none when the shade is refused. Measures again. */
  readonly printShade: {
    readonly asks: ShadePageAsked;
    readonly answers: { readonly files: readonly SavedFile[]; readonly refusal: ErrorEntry | null };
  };
  /**
   * Compares photos of one window as they were last measured; photos take the place of names. The reference is not ranked;
   * null: none.
   */
  readonly compare: {
    readonly asks: {
      readonly photos: readonly PhotoId[];
      readonly reference: PhotoId | null;
      /** Of the pairs only those of this photo are given; left out: all. */
      readonly inView?: PhotoId;
    };
    readonly answers: Comparison;
  };
  /** How alike two windows are, each in a photo as it was last measured; the photos take the place of their names. */
  readonly match: { readonly asks: { readonly photos: readonly [PhotoId, PhotoId] }; readonly answers: Match };
  /** Stops a call that is under way; it rejects with kind cancelled. */
  readonly cancel: { readonly asks: { readonly call: string }; readonly answers: null };
}
export type BenchVerb = keyof BenchVerbs;

/** What the host tells without being asked. */
export type BenchEvent =
  | { readonly type: 'progress'; readonly call: string; readonly progress: MeasureProgress }
  /** The watched folder has something new: `watchRead` tells what. */
  | { readonly type: 'watch' }
  /** The program was asked to open a unit in one file. */
  | { readonly type: 'archive'; readonly added: AddedArchive }
  /** The engine ended by itself; calls under way were rejected, the next call starts it again. */
  | { readonly type: 'engine-stopped'; readonly message: string };
