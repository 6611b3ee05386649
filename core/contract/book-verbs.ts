import type { BenchPhoto, MeasureAsked, PhotoId, SavedFile, ScreenPixels } from './bench';
import type { LightKind } from './light';
import type { PhotoRole, UnitRecord, UnitWindow } from './unit-record';

/** What the page may ask of the book. It names units by their ids and photos by their checksums, never by a place. */

export type UnitId = string;

/** A unit in the list of the book. */
export type BookEntry =
  | {
      readonly id: UnitId;
      readonly name: string;
      readonly savedAt: string;
      readonly windows: readonly string[];
      readonly revision: number;
      readonly trials: number;
      readonly photos: number;
      readonly chosen: string | null;
    }
  /** A record that this program cannot read: damaged, or of a newer version. */
  | { readonly id: UnitId; readonly error: string };

/** One change of a record. Said as what is meant, so that it can be done again on what another program saved meanwhile. */
export type UnitEdit =
  /** A field as `unit set` names it; an empty text takes the answer away. */
  | { readonly kind: 'set'; readonly field: string; readonly text: string }
  | { readonly kind: 'add-window'; readonly window: UnitWindow }
  | {
      readonly kind: 'add-trial';
      readonly name: string;
      readonly light: LightKind | null;
      /** The trial that it begins as a copy of, mirrored to another window. */
      readonly like: string | null;
      readonly mirrorTo: string | null;
    }
  | { readonly kind: 'choose-trial'; readonly trial: string; readonly why: string }
  /** Takes an item out of a list; the originals of photos stay in the unit's folder, and undo brings it back. */
  | { readonly kind: 'remove'; readonly list: 'windows' | 'trials' | 'parts'; readonly name: string }
  | { readonly kind: 'remove-photo'; readonly sha256: string; readonly role: PhotoRole; readonly trial: string | null };

/** What a photo of the bench becomes in a unit. */
export interface FiledAs {
  readonly unit: UnitId;
  /** An existing window, or a new one of this name with the size and shape that the photo was measured with. */
  readonly window: string;
  readonly role: PhotoRole;
  /** Existing or new; null unless role is trial, or for a helper photo of one trial only. */
  readonly trial: string | null;
}

/** A photo of a unit on the bench, with everything that the record says about reading it. */
export interface LaidPhoto {
  readonly photo: BenchPhoto;
  readonly window: string;
  readonly role: PhotoRole;
  readonly trial: string | null;
  readonly asked: MeasureAsked;
}

/** A unit in one file that lies with the host under this id, to be taken into the book. */
export interface AddedArchive {
  readonly archive: PhotoId;
  readonly name: string;
}

export interface BookShown {
  readonly entries: readonly BookEntry[];
  /** Why nothing can be changed from here, and what to do, in sentences; null when it can. */
  readonly readOnly: string | null;
}

/** Verb -> what it asks and answers; part of the bench's verbs. */
export interface BookVerbs {
  /** Units with all words of the search, the last saved first; '' finds all. */
  readonly bookList: { readonly asks: { readonly search: string }; readonly answers: BookShown };
  readonly unitRead: { readonly asks: { readonly unit: UnitId }; readonly answers: UnitRecord };
  readonly unitCreate: {
    readonly asks: { readonly name: string; readonly like: UnitId | null };
    readonly answers: UnitRecord;
  };
  /** All edits as one revision, or none. */
  readonly unitEdit: {
    readonly asks: { readonly unit: UnitId; readonly edits: readonly UnitEdit[] };
    readonly answers: UnitRecord;
  };
  readonly unitRestore: {
    readonly asks: { readonly unit: UnitId; readonly which: 'undo' | 'redo' };
    readonly answers: UnitRecord;
  };
  /** Goes on from the newest revision that is whole, and keeps damaged ones aside. */
  readonly unitRepair: { readonly asks: { readonly unit: UnitId }; readonly answers: UnitRecord };
  /** What is left of a unit that cannot be read: its photos, and its damaged record as it is. */
  readonly unitLeftovers: {
    readonly asks: { readonly unit: UnitId };
    readonly answers: SavedFile & {
      /** Those that are whole. */
      readonly photos: number;
      /** In the file too, apart from these. */
      readonly damagedPhotos: number;
      /** Files that could not be read, and are not in it. */
      readonly unreadable: number;
    };
  };
  /** The record as it was; the newest revisions first, at most so many. */
  readonly unitTimeline: {
    readonly asks: { readonly unit: UnitId; readonly most: number };
    readonly answers: readonly UnitRevision[];
  };
  /** The straightened window of a photo of the unit (null: of the chosen trial, else the reference), made once and kept. */
  readonly unitThumbnail: {
    readonly asks: { readonly unit: UnitId; readonly sha256: string | null; readonly window: string | null };
    readonly answers: ScreenPixels | null;
  };
  /** Keeps photos of the bench byte for byte in a unit, with the corners and the readings that they have; one revision. */
  readonly fileReadings: {
    readonly asks: { readonly filed: readonly ({ readonly measure: MeasureAsked } & FiledAs)[] };
    readonly answers: UnitRecord;
  };
  /** Lays the photos of one window of a unit on the bench, the reference first; one that lies there already is not laid twice. */
  readonly layUnit: {
    readonly asks: { readonly unit: UnitId; readonly window: string };
    readonly answers: readonly LaidPhoto[];
  };
  readonly unitSheet: {
    readonly asks: {
      readonly unit: UnitId;
      readonly form: 'pdf' | 'html';
      readonly paper: 'A4' | 'Letter';
      readonly share: boolean;
    };
    readonly answers: SavedFile;
  };
  readonly unitExport: {
    readonly asks: { readonly unit: UnitId; readonly share: boolean };
    /** Photos that could not be made again for sharing are left out, and named. */
    readonly answers: SavedFile & { readonly leftOut: readonly string[] };
  };
  /** An archive that was dropped on the page and lies with the host under this id. */
  readonly unitImport: {
    readonly asks: { readonly upload: PhotoId };
    readonly answers: UnitRecord;
  };
}

export interface UnitRevision {
  readonly revision: number;
  readonly savedAt: string;
  readonly restores: number | null;
  readonly changes: readonly { readonly place: string; readonly before?: unknown; readonly after?: unknown }[];
}
