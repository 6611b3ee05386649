import { AppError } from '../../base/errors';
import type { BenchEvent } from '../../contract/bench';
import type { MeasureProgress } from '../../contract/measure';
import type { PhotoDecoder } from '../decode-process';
import type { EngineTasks, TaskName } from '../engine/messages';
import { EngineStopped } from '../engine/run-task';
import { benchErrorOf } from './bench-error';
import type { EnginePool } from './engine-pool';

export function cancelled(): AppError {
  return new AppError('cancelled', 'CANCELLED', 'Cancelled.', 'Start it again when you are ready.');
}

/** What a verb has while it is being answered. */
export interface CallRun {
  /** Aborts when the page has cancelled the call. */
  readonly signal: AbortSignal;
  readonly decoder: PhotoDecoder;
  readonly onProgress: (progress: MeasureProgress) => void;
  /** Has an engine do a task for this call. @param tidy  as of the pool */
  engine<Name extends TaskName>(
    name: Name,
    asks: EngineTasks[Name]['asks'],
    tidy?: () => Promise<void>,
  ): Promise<EngineTasks[Name]['answers']>;
}

/** The calls that are under way, each with what stops it. @rule BE6 */
export class Calls {
  private readonly underWay = new Map<string, AbortController>();

  constructor(
    private readonly pool: EnginePool,
    private readonly decoder: PhotoDecoder,
    private readonly tell: (event: BenchEvent) => void,
  ) {}

  /** @throws AppError CALL_REPEATED, CANCELLED; what `act` throws */
  async run<Answer>(call: string, act: (run: CallRun) => Promise<Answer>): Promise<Answer> {
    if (this.underWay.has(call)) {
      throw new AppError('usage', 'CALL_REPEATED', `the call ${call} is under way`, 'Give each call its own name.');
    }
    const cancel = new AbortController();
    this.underWay.set(call, cancel);
    const { signal } = cancel;
    const onProgress = (progress: MeasureProgress): void => this.tell({ type: 'progress', call, progress });
    const { decoder } = this;
    const engine: CallRun['engine'] = (name, asks, tidy) =>
      this.pool.run(name, asks, { decoder, signal, onProgress }, tidy);
    try {
      return await act({ signal, decoder, onProgress, engine });
    } catch (error) {
      if (signal.aborted) throw cancelled();
      if (error instanceof EngineStopped) this.tell({ type: 'engine-stopped', message: benchErrorOf(error).message });
      throw error;
    } finally {
      this.underWay.delete(call);
    }
  }

  cancel(call: string): void {
    this.underWay.get(call)?.abort(cancelled());
  }

  cancelAll(): void {
    for (const cancel of this.underWay.values()) cancel.abort(cancelled());
  }
}
