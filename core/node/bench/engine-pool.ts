import { AppError } from '../../base/errors';
import { photoOf, type EngineChild, type EngineTasks, type Task, type TaskName } from '../engine/messages';
import { runTask, type TaskRun } from '../engine/run-task';

/** Two: a long measurement does not keep the next photo from being shown. */
const mostEngines = 2;
/** A warm engine is worth waiting for: a new one takes a second longer for its first photo. */
const letFinishMs = 5000;

export interface EnginePool {
  run<Name extends TaskName>(
    name: Name,
    asks: EngineTasks[Name]['asks'],
    run: TaskRun,
  ): Promise<EngineTasks[Name]['answers']>;
  close(): Promise<void>;
}

/** Whether an engine whose task nobody waits for any more comes to the end of it. */
function finishesSoon(engine: EngineChild): Promise<boolean> {
  return new Promise((resolve) => {
    const settle = (done: boolean): void => {
      clearTimeout(timer);
      stopListening();
      resolve(done);
    };
    const timer = setTimeout(() => settle(false), letFinishMs);
    const stopListening = engine.listen(
      ({ type }) => {
        if (type === 'result' || type === 'failed') settle(true);
      },
      () => settle(false),
    );
  });
}

/**
 * Warm engines, each with one task at a time; a photo goes to the engine that had it last. A cancelled task rejects at once,
 * and its engine may finish it, unheard, for a moment. One that does not, or ends by itself, is gone with its own task only;
 * another is started when it is needed.
 *
 * @rule BE6
 */
export function createEnginePool(start: () => EngineChild): EnginePool {
  const engines = new Set<EngineChild>();
  const idle: EngineChild[] = [];
  const lastPhoto = new WeakMap<EngineChild, string>();
  const waiting: (() => void)[] = [];
  let busy = 0;
  let closed = false;

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
    const isSound = failure === null || (isCancelled ? await finishesSoon(engine) : failure instanceof AppError);
    if (!isSound) {
      forget(engine);
      await engine.end();
    } else if (engines.has(engine) && !closed) idle.push(engine);
    passTurn();
  }

  return {
    async run(name, asks, run) {
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
        const given = giveBack(engine, failure, isCancelled);
        // Whoever cancelled does not wait for the engine.
        if (!isCancelled) await given;
      }
    },
    async close() {
      closed = true;
      idle.length = 0;
      await Promise.all([...engines].map((engine) => engine.end()));
      engines.clear();
    },
  };
}
