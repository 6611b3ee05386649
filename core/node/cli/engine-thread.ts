import { performance } from 'node:perf_hooks';
import { parentPort, Worker, type MessagePort } from 'node:worker_threads';
import type { FindRequest, FoundPhoto, MeasureProgress, MeasureRequest, MeasureResult } from '../../contract/measure';
import { findOutlines, measurePhotos, type EnginePorts } from '../../engine';
import { errorOfSent, sentErrorOf, type SentError } from './sent-error';

type Decode = EnginePorts['decodePhoto'];
type DecodeRequest = Parameters<Decode>[1];
type Decoded = Awaited<ReturnType<Decode>>;

type ToEngine =
  | { readonly type: 'measure'; readonly request: MeasureRequest }
  | { readonly type: 'find'; readonly request: FindRequest }
  | { readonly type: 'decoded'; readonly id: number; readonly photo: Decoded }
  | { readonly type: 'not-decoded'; readonly id: number; readonly error: SentError };
/** What the engine is asked to do. */
type Task = Extract<ToEngine, { readonly type: 'measure' | 'find' }>;
type FromEngine =
  | { readonly type: 'decode'; readonly id: number; readonly path: string; readonly request: DecodeRequest }
  | { readonly type: 'progress'; readonly progress: MeasureProgress }
  | { readonly type: 'result'; readonly result: MeasureResult | FoundPhoto[] }
  | { readonly type: 'failed'; readonly error: SentError };

/** The engine's side: measures what the main thread sends, and asks it for every photo. */
function serveEngine(port: MessagePort): void {
  const waiting = new Map<number, { resolve: (photo: Decoded) => void; reject: (error: Error) => void }>();
  const send = (message: FromEngine): void => port.postMessage(message);
  let asked = 0;
  const decodePhoto: Decode = (path, request) =>
    new Promise((resolve, reject) => {
      const id = ++asked;
      waiting.set(id, { resolve, reject });
      send({ type: 'decode', id, path, request });
    });
  const ports: EnginePorts = { decodePhoto, nowMs: () => performance.now() };
  const run = { onProgress: (progress: MeasureProgress): void => send({ type: 'progress', progress }) };
  const serve = async (asked: Task): Promise<void> => {
    try {
      const result =
        asked.type === 'find'
          ? await findOutlines(asked.request, ports, run)
          : await measurePhotos(asked.request, ports, run);
      send({ type: 'result', result });
    } catch (error) {
      send({ type: 'failed', error: sentErrorOf(error) });
    }
  };
  port.on('message', (message: ToEngine) => {
    if (message.type === 'measure' || message.type === 'find') {
      void serve(message);
      return;
    }
    const asker = waiting.get(message.id);
    waiting.delete(message.id);
    if (message.type === 'decoded') asker?.resolve(message.photo);
    else asker?.reject(errorOfSent(message.error));
  });
}

/** Makes this thread the engine's; called by the program when it is started as a worker thread. */
export function startAsEngineThread(): void {
  if (parentPort === null) throw new Error('not a worker thread');
  serveEngine(parentPort);
}

export interface ThreadRun {
  readonly decode: Decode;
  readonly signal: AbortSignal;
  readonly onProgress: (progress: MeasureProgress) => void;
}

/**
 * Measures in a thread of its own, so that a cancelled run stops at once even in the middle of a long computation.
 * The photos are decoded through `run.decode` in this thread, which stays free to stop the decoder.
 *
 * @param program the bundled program; started as a worker thread it calls `startAsEngineThread`
 * @rule CL10
 */
export async function measureInThread(
  program: string,
  request: MeasureRequest,
  run: ThreadRun,
): Promise<MeasureResult> {
  return (await runInThread(program, { type: 'measure', request }, run)) as MeasureResult;
}

/** Searches photos for lit windows in a thread of its own. @rule CL10 */
export async function findInThread(program: string, request: FindRequest, run: ThreadRun): Promise<FoundPhoto[]> {
  return (await runInThread(program, { type: 'find', request }, run)) as FoundPhoto[];
}

async function runInThread(program: string, task: Task, run: ThreadRun): Promise<MeasureResult | FoundPhoto[]> {
  run.signal.throwIfAborted();
  const worker = new Worker(program);
  const send = (message: ToEngine): void => worker.postMessage(message);
  const answer = async (id: number, path: string, asked: DecodeRequest): Promise<void> => {
    try {
      send({ type: 'decoded', id, photo: await run.decode(path, asked) });
    } catch (error) {
      send({ type: 'not-decoded', id, error: sentErrorOf(error) });
    }
  };
  let stop: (() => void) | undefined;
  try {
    return await new Promise((resolve, reject) => {
      stop = (): void => reject(run.signal.reason as Error);
      run.signal.addEventListener('abort', stop, { once: true });
      worker.on('error', reject);
      worker.on('exit', (code) => reject(new Error(`the engine's thread ended with code ${code}`)));
      worker.on('message', (message: FromEngine) => {
        if (message.type === 'decode') void answer(message.id, message.path, message.request);
        else if (message.type === 'progress') run.onProgress(message.progress);
        else if (message.type === 'result') resolve(message.result);
        else reject(errorOfSent(message.error));
      });
      send(task);
    });
  } finally {
    if (stop) run.signal.removeEventListener('abort', stop);
    await worker.terminate();
  }
}
