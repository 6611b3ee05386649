import type { MeasureProgress } from '../../contract/measure';
import type { PixelFile } from '../decode/decode-worker';
import type { PhotoDecoder } from '../decode-process';
import type { EngineChild, EngineTasks, FromEngine, Task, TaskName } from './messages';
import { errorOfSent, sentErrorOf } from './sent-error';

/** The engine's thread or process ended before its task did. */
export class EngineStopped extends Error {
  constructor(why: string) {
    super(why);
    this.name = 'EngineStopped';
  }
}

export interface TaskRun {
  readonly decoder: Pick<PhotoDecoder, 'decodeToFile'>;
  readonly signal: AbortSignal;
  readonly onProgress: (progress: MeasureProgress) => void;
}

/** Has some engine do one task, with a decoder that belongs to it. */
export type RunTask = <Name extends TaskName>(
  name: Name,
  asks: EngineTasks[Name]['asks'],
  run: Omit<TaskRun, 'decoder'>,
) => Promise<EngineTasks[Name]['answers']>;

/**
 * Has an engine do one task, and its photos decoded. When the signal aborts, the engine is left in the middle of its
 * work: it has to be ended.
 *
 * @throws the signal's reason; what the task threw; EngineStopped
 * @rule CL10
 */
export async function runTask<Name extends TaskName>(
  engine: EngineChild,
  name: Name,
  asks: EngineTasks[Name]['asks'],
  run: TaskRun,
): Promise<EngineTasks[Name]['answers']> {
  run.signal.throwIfAborted();
  const taken = new Map<number, () => void>();
  const ended = new AbortController();
  /** Waits for the engine to read the file, or for its end. */
  const handOver = (id: number, pixels: PixelFile): Promise<void> =>
    new Promise((resolve) => {
      const settle = (): void => {
        ended.signal.removeEventListener('abort', settle);
        taken.delete(id);
        resolve();
      };
      taken.set(id, settle);
      ended.signal.addEventListener('abort', settle, { once: true });
      engine.send({ type: 'decoded', id, pixels });
    });
  const decode = async ({ id, path, request }: Extract<FromEngine, { type: 'decode' }>): Promise<void> => {
    try {
      await run.decoder.decodeToFile(path, request, (pixels) => handOver(id, pixels), run.signal);
    } catch (error) {
      if (!ended.signal.aborted) engine.send({ type: 'not-decoded', id, error: sentErrorOf(error) });
    }
  };
  const clearing: (() => void)[] = [];
  try {
    return await new Promise((resolve, reject) => {
      const stop = (): void => reject(run.signal.reason as Error);
      run.signal.addEventListener('abort', stop, { once: true });
      clearing.push(() => run.signal.removeEventListener('abort', stop));
      const onMessage = (message: FromEngine): void => {
        if (message.type === 'decode') void decode(message);
        else if (message.type === 'taken') taken.get(message.id)?.();
        else if (message.type === 'progress') run.onProgress(message.progress);
        else if (message.type === 'result') resolve(message.result as EngineTasks[Name]['answers']);
        else reject(errorOfSent(message.error));
      };
      clearing.push(engine.listen(onMessage, (why) => reject(new EngineStopped(why))));
      engine.send({ type: 'task', task: { name, asks } as Task });
    });
  } finally {
    ended.abort();
    for (const clear of clearing) clear();
  }
}
