import path from 'node:path';
import { existsSync } from 'node:fs';
import { Worker } from 'node:worker_threads';
import type { EngineChild, EngineTasks, FromEngine, TaskName } from './messages';
import { runTask, type TaskRun } from './run-task';

/** The engine stands beside the bundled program, or in dist/ when the sources run. */
function findEngineFile(): string {
  const beside = path.join(__dirname, 'engine.cjs');
  return existsSync(beside) ? beside : path.resolve(__dirname, '../../../dist/engine.cjs');
}

/** Starts the engine in a thread of this process. */
export function startThreadEngine(): EngineChild {
  const worker = new Worker(findEngineFile());
  let ended: string | null = null;
  const endings = new Set<(why: string) => void>();
  const end = (why: string): void => {
    if (ended !== null) return;
    ended = why;
    for (const onEnd of endings) onEnd(why);
  };
  worker.on('error', (error) => end(`the engine's thread failed: ${error.message}`));
  worker.on('exit', (code) => end(`the engine's thread ended with code ${code}`));
  return {
    send: (message) => worker.postMessage(message),
    listen(onMessage, onEnd) {
      const listener = (message: FromEngine): void => onMessage(message);
      worker.on('message', listener);
      endings.add(onEnd);
      if (ended !== null) onEnd(ended);
      return () => {
        worker.off('message', listener);
        endings.delete(onEnd);
      };
    },
    async end() {
      endings.clear();
      await worker.terminate();
    },
  };
}

/**
 * Does one task in a thread of its own, so that a cancelled run stops at once even in the middle of a long computation.
 *
 * @rule CL10
 */
export async function runInThread<Name extends TaskName>(
  name: Name,
  asks: EngineTasks[Name]['asks'],
  run: TaskRun,
): Promise<EngineTasks[Name]['answers']> {
  run.signal.throwIfAborted();
  const engine = startThreadEngine();
  try {
    return await runTask(engine, name, asks, run);
  } finally {
    await engine.end();
  }
}
