import { AppError } from '../../base/errors';
import type { EngineChild, EngineTasks, TaskName } from '../engine/messages';
import { runTask, type TaskRun } from '../engine/run-task';

/** Two: a long measurement does not keep the next photo from being shown. */
const mostEngines = 2;

export interface EnginePool {
  run<Name extends TaskName>(
    name: Name,
    asks: EngineTasks[Name]['asks'],
    run: TaskRun,
  ): Promise<EngineTasks[Name]['answers']>;
  close(): Promise<void>;
}

/**
 * Warm engines, each with one task at a time. One that is cancelled, or ends by itself, is gone with its own task only;
 * another is started when it is needed.
 *
 * @rule BE6
 */
export function createEnginePool(start: () => EngineChild): EnginePool {
  const engines = new Set<EngineChild>();
  const idle: EngineChild[] = [];
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

  return {
    async run(name, asks, run) {
      await takeTurn(run.signal);
      try {
        const engine = idle.pop() ?? startEngine();
        try {
          return await runTask(engine, name, asks, run);
        } catch (error) {
          // After a refusal the engine is as good as before; nobody knows that of any other failure.
          if (run.signal.aborted || !(error instanceof AppError)) {
            forget(engine);
            await engine.end();
          }
          throw error;
        } finally {
          if (engines.has(engine) && !closed) idle.push(engine);
        }
      } finally {
        passTurn();
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
