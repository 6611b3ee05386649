import { useEffect, useRef, useState } from 'preact/hooks';
import type { BenchError } from '../../../core/contract/bench';
import type { MeasureProgress } from '../../../core/contract/measure';
import { CallFailed, type CallOptions } from '../../link/bench-link';

/** Work of the host that takes long enough to be watched and stopped. */
export interface Job {
  readonly isRunning: boolean;
  readonly progress: MeasureProgress | null;
  readonly error: BenchError | null;
  /** @returns null when it failed or was stopped */
  run<Answer>(work: (options: CallOptions) => Promise<Answer>): Promise<Answer | null>;
  cancel(): void;
}

/** One job at a time; leaving the screen stops it. */
export function useJob(): Job {
  const [isRunning, setIsRunning] = useState(false);
  const [progress, setProgress] = useState<MeasureProgress | null>(null);
  const [error, setError] = useState<BenchError | null>(null);
  const stop = useRef<AbortController | null>(null);
  useEffect(() => () => stop.current?.abort(), []);
  return {
    isRunning,
    progress,
    error,
    cancel: () => stop.current?.abort(),
    async run(work) {
      stop.current?.abort();
      const mine = new AbortController();
      stop.current = mine;
      setIsRunning(true);
      setProgress(null);
      setError(null);
      try {
        return await work({ signal: mine.signal, onProgress: setProgress });
      } catch (failed) {
        if (!(failed instanceof CallFailed)) throw failed;
        if (stop.current === mine) setError(failed);
        return null;
      } finally {
        if (stop.current === mine) setIsRunning(false);
      }
    },
  };
}
