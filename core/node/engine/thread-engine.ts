import path from 'node:path';
import { existsSync } from 'node:fs';
import { Worker } from 'node:worker_threads';
import { createDecoder } from '../decode-process';
import type { EngineChild, FromEngine } from './messages';
import { runTask, type RunTask } from './run-task';

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

/** An engine for what a program is told to do, one task after the other. */
export interface TaskEngine {
  readonly runTask: RunTask;
  /** Stops what runs; resolves when thread and decoder have ended. */
  end(): Promise<void>;
}

/**
 * An engine in a thread of its own, so that a cancelled run stops at once even in the middle of a long computation. It starts
 * with its first task and is warm for the next.
 *
 * @rule CL10
 */
export function createTaskEngine(): TaskEngine {
  const decoder = createDecoder({});
  let engine: EngineChild | null = null;
  return {
    async runTask(name, asks, run) {
      run.signal.throwIfAborted();
      engine ??= startThreadEngine();
      return runTask(engine, name, asks, { ...run, decoder });
    },
    async end() {
      await Promise.all([engine?.end(), decoder.close()]);
    },
  };
}
