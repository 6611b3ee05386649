import type { Corners } from '../../base/points';
import type {
  BenchVerbs,
  LinearPart,
  PhotoRegion,
  SavedFile,
  ScreenPixels,
  ShadePageAsked,
} from '../../contract/bench';
import type { CarriedOutline, CarryRequest } from '../../contract/carry';
import type {
  FindRequest,
  FoundPhoto,
  MeasureProgress,
  MeasureRequest,
  MeasureResult,
  PhotoRef,
} from '../../contract/measure';
import type { UnitRecord } from '../../contract/unit-record';
import type { PixelRegion } from '../../photo/decoded-photo';
import type { PixelFile } from '../decode/decode-worker';
import type { Shared } from '../book/share-unit';
import type { SheetForm } from '../sheet/make-sheet';
import type { SentError } from './sent-error';

/** A shade's page, of the one window that the request measures. */
export type ShadePageTask = Omit<ShadePageAsked, 'measure'> & {
  readonly request: MeasureRequest;
  /** Of the program, for the page's own facts. */
  readonly version: string;
  readonly savedAt: string;
};

/** What the engine can be asked to do, one task at a time. */
export interface EngineTasks {
  readonly measure: { readonly asks: MeasureRequest; readonly answers: MeasureResult };
  readonly find: { readonly asks: FindRequest; readonly answers: readonly FoundPhoto[] };
  readonly carry: { readonly asks: CarryRequest; readonly answers: CarriedOutline };
  readonly pixels: {
    readonly asks: { readonly photo: PhotoRef; readonly mostSidePx: number; readonly region: PhotoRegion | null };
    readonly answers: ScreenPixels;
  };
  readonly linear: {
    readonly asks: { readonly photo: PhotoRef; readonly region: PhotoRegion; readonly mostPixels: number };
    readonly answers: LinearPart;
  };
  /** Measures, and gives the reading as files. */
  readonly files: {
    readonly asks: { readonly request: MeasureRequest; readonly what: 'json' | 'csv' | 'pictures' };
    readonly answers: readonly SavedFile[];
  };
  /** Measures a unit for its record sheet; with maps come only the windows that the sheet draws. */
  readonly unit: {
    readonly asks: { readonly record: UnitRecord; readonly request: MeasureRequest };
    readonly answers: MeasureResult;
  };
  /** Prints the record sheet of a unit that was measured. */
  readonly sheet: {
    readonly asks: {
      readonly record: UnitRecord;
      readonly result: MeasureResult;
      readonly form: SheetForm;
      readonly isShared: boolean;
      readonly program: string;
    };
    readonly answers: Uint8Array;
  };
  /** Writes a unit of the book in this folder, to be given away. */
  readonly share: {
    readonly asks: { readonly book: string; readonly unit: string; readonly file: string };
    readonly answers: Shared;
  };
  /** A small picture of a window seen straight on; window null: of the whole photo. */
  readonly thumbnail: {
    readonly asks: {
      readonly photo: PhotoRef;
      readonly window: { readonly widthMm: number; readonly heightMm: number; readonly corners: Corners | null } | null;
      readonly mostSidePx: number;
    };
    readonly answers: ScreenPixels;
  };
  /** Measures, and gives the page of a shade. */
  readonly shade: {
    readonly asks: ShadePageTask;
    readonly answers: BenchVerbs['printShade']['answers'];
  };
}
export type TaskName = keyof EngineTasks;

/** A task with what it asks. */
export type Task = { [Name in TaskName]: { readonly name: Name; readonly asks: EngineTasks[Name]['asks'] } }[TaskName];

/** The photo that a task is about: its first one, or the one that is looked at anew. */
export function photoOf(task: Task): string {
  switch (task.name) {
    case 'measure':
      return task.asks.jobs[0].photo.path;
    case 'files':
    case 'shade':
    case 'unit':
      return task.asks.request.jobs[0].photo.path;
    case 'find':
      return task.asks.photos[0].path;
    case 'carry':
      return task.asks.to.path;
    case 'pixels':
    case 'linear':
    case 'thumbnail':
      return task.asks.photo.path;
    case 'sheet':
    case 'share':
      return '';
  }
}

/** Photos are decoded by processes that the host looks after; their pixels come as files. */
export type ToEngine =
  | { readonly type: 'task'; readonly task: Task }
  | { readonly type: 'decoded'; readonly id: number; readonly pixels: PixelFile }
  | { readonly type: 'not-decoded'; readonly id: number; readonly error: SentError };
export type FromEngine =
  | {
      readonly type: 'decode';
      readonly id: number;
      readonly path: string;
      readonly request: { readonly regionPx: PixelRegion | null };
    }
  /** The pixel file has been read. */
  | { readonly type: 'taken'; readonly id: number }
  | { readonly type: 'progress'; readonly progress: MeasureProgress }
  | { readonly type: 'result'; readonly result: EngineTasks[TaskName]['answers'] }
  | { readonly type: 'failed'; readonly error: SentError };

/** The engine in a thread or a process of its own, as its host sees it. */
export interface EngineChild {
  send(message: ToEngine): void;
  /**
   * @param onEnd  once, when the engine has ended by itself; `why` is for the log
   * @returns a function that ends the listening
   */
  listen(onMessage: (message: FromEngine) => void, onEnd: (why: string) => void): () => void;
  /** Ends it at once, whatever it is doing. */
  end(): Promise<void>;
}
