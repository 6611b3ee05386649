import type { BenchError, BenchEvent, BenchPhoto, BenchVerb, BenchVerbs } from '../../core/contract/bench';
import type { AddedArchive } from '../../core/contract/book-verbs';
import type { MeasureProgress } from '../../core/contract/measure';

export interface CallOptions {
  /** Aborting it cancels the call in the host; the call then rejects with kind cancelled. */
  readonly signal?: AbortSignal;
  readonly onProgress?: (progress: MeasureProgress) => void;
}

/** A file that the host would not take; the others of the drop are on the bench. */
export interface RefusedPhoto extends BenchError {
  readonly name: string;
}

/** What a file of the user became. */
export type AddedFile = BenchPhoto | AddedArchive | RefusedPhoto;

export function isRefused(added: AddedFile): added is RefusedPhoto {
  return 'message' in added;
}

export function isArchive(added: AddedFile): added is AddedArchive {
  return 'archive' in added;
}

/** How the page reaches its host: over HTTP in a browser, over the preload's verbs in the window. */
export interface BenchLink {
  /** Rejects with a `CallFailed`, which is a BenchError, and with nothing else. */
  call<Verb extends BenchVerb>(
    verb: Verb,
    asks: BenchVerbs[Verb]['asks'],
    options?: CallOptions,
  ): Promise<BenchVerbs[Verb]['answers']>;
  /** One answer a file, in the order of the files. */
  addPhotos(files: readonly File[]): Promise<readonly AddedFile[]>;
  /** @returns a function that ends the listening */
  onEvent(listener: (event: BenchEvent) => void): () => void;
}

/** A BenchError that can be thrown. */
export class CallFailed extends Error implements BenchError {
  readonly kind: BenchError['kind'];
  readonly code: string;
  readonly remedy: string;

  constructor({ kind, code, message, remedy }: BenchError) {
    super(message);
    this.name = 'CallFailed';
    this.kind = kind;
    this.code = code;
    this.remedy = remedy;
  }
}
