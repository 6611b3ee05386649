import { setMaxListeners } from 'node:events';
import { availableParallelism } from 'node:os';
import type { DecodedPhoto, PixelRegion } from '../photo/decoded-photo';
import type { DecodeChild } from './decode/decode-child-process';
import { DecodeWorker, readPixelFile, type PixelFile } from './decode/decode-worker';
import { decodeCancelled } from './decode/photo-errors';
import { defaultPhotoLimits, type PhotoLimits } from './decode/photo-limits';
import path from 'node:path';

export interface DecoderOptions {
  /** Photos decoded at a time; default 2, or 1 on a single core. */
  readonly processes?: number;
  readonly limits?: Partial<PhotoLimits>;
  /** 'wasm': the library's WebAssembly build; default: what EVENDIAL_DECODER says, else the native build. */
  readonly build?: 'native' | 'wasm';
  /** The bundled child; default: beside the program, or in dist/. */
  readonly childFile?: string;
  /** How the child is started; default: as a Node process. */
  readonly startChild?: (childFile: string, env: NodeJS.ProcessEnv) => DecodeChild;
}

export interface DecodeAsked {
  /** In the upright photo, cut to it; left out or null: the whole photo. */
  readonly regionPx?: PixelRegion | null;
}

export interface PhotoDecoder {
  /** @throws AppError  kind 'photo', or 'cancelled' once `signal` is aborted */
  decode(place: string, asked: DecodeAsked, signal?: AbortSignal): Promise<DecodedPhoto>;
  /**
   * Leaves the pixels in a file for another thread or process to read, so that they are not copied on the way.
   *
   * @param take  reads the file; it is removed when `take` has ended
   */
  decodeToFile<T>(
    place: string,
    asked: DecodeAsked,
    take: (pixels: PixelFile) => Promise<T>,
    signal?: AbortSignal,
  ): Promise<T>;
  /** Stops what runs, ends the processes and removes their folder; takes at most a few seconds. */
  close(): Promise<void>;
}

/**
 * A decoder that opens photos in processes of their own, so that a broken file, a hang or a want of memory costs one
 * photo and not the tool. The processes start when first needed, stay warm, and are replaced after a failure, a limit,
 * a cancelled photo, or when their memory has grown.
 *
 * @rule PX9, PX10
 */
export function createDecoder(options: DecoderOptions = {}): PhotoDecoder {
  const limits = { ...defaultPhotoLimits, ...options.limits };
  const count = Math.max(1, options.processes ?? Math.min(2, availableParallelism()));
  const workers = Array.from({ length: count }, () => new DecodeWorker(options));
  const idle = [...workers];
  const waiting: ((worker: DecodeWorker | null) => void)[] = [];
  let closed = false;

  /** A free process, or null once `signal` is aborted or the decoder closed. */
  function takeWorker(signal: AbortSignal | undefined): Promise<DecodeWorker | null> {
    const free = idle.shift();
    if (free) return Promise.resolve(free);
    return new Promise((resolve) => {
      const settle = (worker: DecodeWorker | null): void => {
        signal?.removeEventListener('abort', giveUp);
        resolve(worker);
      };
      const giveUp = (): void => {
        waiting.splice(waiting.indexOf(settle), 1);
        settle(null);
      };
      waiting.push(settle);
      // Every photo of a long series that waits listens: many listeners are no leak, and Node shall not warn of one.
      if (signal) setMaxListeners(0, signal);
      signal?.addEventListener('abort', giveUp, { once: true });
    });
  }

  async function decodeToFile<T>(
    place: string,
    asked: DecodeAsked,
    take: (pixels: PixelFile) => Promise<T>,
    signal?: AbortSignal,
  ): Promise<T> {
    const file = path.basename(place);
    if (closed || signal?.aborted) throw decodeCancelled(file);
    const worker = await takeWorker(signal);
    if (!worker) throw decodeCancelled(file);
    try {
      const request = { place: path.resolve(place), region: asked.regionPx ?? null, limits };
      return await worker.decode(request, take, signal);
    } finally {
      const next = closed ? undefined : waiting.shift();
      if (next) next(worker);
      else idle.push(worker);
    }
  }

  return {
    decodeToFile,
    decode: (place, asked, signal) => decodeToFile(place, asked, readPixelFile, signal),
    async close() {
      closed = true;
      for (const settle of waiting.splice(0)) settle(null);
      await Promise.all(workers.map((worker) => worker.close()));
    },
  };
}
