import { AppError } from '../../base/errors';
import { photoOf, type EngineChild, type EngineTasks, type Task, type TaskName } from '../engine/messages';
import { runTask, type TaskRun } from '../engine/run-task';

/** Two: a long measurement does not keep the next photo from being shown. */
const mostEngines = 2;
/** Milliseconds. A warm engine is worth waiting for: a new one takes a second longer for its first photo. */
const usualLetFinishMs = 5000;

export interface EnginePoolOptions {
  readonly start: () => EngineChild;
  /** Told of what fails when no call waits for it any more. */
  readonly onDefect: (error: unknown) => void;
  /** How long an engine may go on with a task that was cancelled; default: 5 s. */
  readonly letFinishMs?: number | undefined;
}

export interface EnginePool {
  /**
   * @param tidy  clears away what a task that failed or was cancelled may leave behind, once no engine works at it any more
   */
  run<Name extends TaskName>(
    name: Name,
    asks: EngineTasks[Name]['asks'],
    run: TaskRun,
    tidy?: () => Promise<void>,
  ): Promise<EngineTasks[Name]['answers']>;
  /** Ends the engines; resolves when all is cleared away. */
  close(): Promise<void>;
}

/** Whether an engine whose task nobody waits for any more comes to the end of it, before the bench is closed. */
function finishesWithin(letFinishMs: number, engine: EngineChild, closing: AbortSignal): Promise<boolean> {
  if (closing.aborted) return Promise.resolve(false);
  return new Promise((resolve) => {
    const settle = (done: boolean): void => {
      clearTimeout(timer);
      closing.removeEventListener('abort', giveUp);
      stopListening();
      resolve(done);
    };
    const giveUp = (): void => settle(false);
    const timer = setTimeout(giveUp, letFinishMs);
    closing.addEventListener('abort', giveUp, { once: true });
    const stopListening = engine.listen(({ type }) => {
      if (type === 'result' || type === 'failed') settle(true);
    }, giveUp);
  });
}

/**
 * Warm engines, each with one task at a time; a photo goes to the engine that had it last. A cancelled task rejects at once,
 * and its engine may finish it, unheard, for a moment. One that does not, or ends by itself, is gone with its own task only;
 * another is started when it is needed.
 *
 * @rule BE6
 */
export function createEnginePool(options: EnginePoolOptions): EnginePool {
  const { start, onDefect, letFinishMs = usualLetFinishMs } = options;
  const engines = new Set<EngineChild>();
  const idle: EngineChild[] = [];
  const lastPhoto = new WeakMap<EngineChild, string>();
  const waiting: (() => void)[] = [];
  /** What goes on behind calls that were cancelled. */
  const leaving = new Set<Promise<void>>();
  const closing = new AbortController();
  let busy = 0;

  /** An idle engine that has ended meanwhile must not be handed out. */
  function startEngine(): EngineChild {
    const engine = start();
    engines.add(engine);
    engine.listen(
      () => undefined,
      () => forget(engine),
    );
    return engine;
  }

  function forget(engine: EngineChild): void {
    engines.delete(engine);
    if (idle.includes(engine)) idle.splice(idle.indexOf(engine), 1);
  }

  /** An idle engine: the one that had the photo, else the one used last. */
  function takeEngine(photo: string): EngineChild {
    const at = idle.findIndex((engine) => lastPhoto.get(engine) === photo);
    const engine = (at < 0 ? idle.pop() : idle.splice(at, 1)[0]) ?? startEngine();
    lastPhoto.set(engine, photo);
    return engine;
  }

  /** Waits for its turn. */
  async function takeTurn(signal: AbortSignal): Promise<void> {
    signal.throwIfAborted();
    if (busy >= mostEngines) {
      await new Promise<void>((resolve, reject) => {
        const go = (): void => {
          signal.removeEventListener('abort', giveUp);
          resolve();
        };
        const giveUp = (): void => {
          waiting.splice(waiting.indexOf(go), 1);
          reject(signal.reason as Error);
        };
        waiting.push(go);
        signal.addEventListener('abort', giveUp, { once: true });
      });
      return;
    }
    busy++;
  }

  function passTurn(): void {
    const next = waiting.shift();
    if (next) next();
    else busy--;
  }

  /** After a refusal the engine is as good as before; nobody knows that of any other failure. */
  async function giveBack(engine: EngineChild, failure: unknown, isCancelled: boolean): Promise<void> {
    const isSound =
      failure === null ||
      (isCancelled ? await finishesWithin(letFinishMs, engine, closing.signal) : failure instanceof AppError);
    if (!isSound) {
      forget(engine);
      await engine.end();
    } else if (engines.has(engine) && !closing.signal.aborted) idle.push(engine);
    passTurn();
  }

  function goOnUnheard(work: Promise<void>): void {
    const done: Promise<void> = work.catch(onDefect).finally(() => leaving.delete(done));
    leaving.add(done);
  }

  return {
    async run(name, asks, run, tidy) {
      await takeTurn(run.signal);
      const engine = takeEngine(photoOf({ name, asks } as Task));
      let failure: unknown = null;
      try {
        return await runTask(engine, name, asks, run);
      } catch (error) {
        failure = error;
        throw error;
      } finally {
        const isCancelled = run.signal.aborted && failure === run.signal.reason;
        const given = giveBack(engine, failure, isCancelled).then(failure === null ? undefined : tidy);
        // Whoever cancelled does not wait for the engine.
        if (isCancelled) goOnUnheard(given);
        else await given;
      }
    },
    async close() {
      closing.abort();
      idle.length = 0;
      await Promise.all([...engines].map((engine) => engine.end()));
      engines.clear();
      await Promise.all(leaving);
    },
  };
}
