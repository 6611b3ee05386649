import type { BenchEvent } from '../../core/contract/bench';
import type { CallOptions } from './bench-link';
import { CallFailed } from './bench-link';

/** What both links are made of: something that sends a call, something that cancels it, and the events. */
export interface CallWire<Answer> {
  readonly send: (call: string) => Promise<Answer>;
  readonly cancel: (call: string) => void;
  readonly onEvent: (listener: (event: BenchEvent) => void) => () => void;
}

const cancelled = (): CallFailed =>
  new CallFailed({
    kind: 'cancelled',
    code: 'CANCELLED',
    message: 'Cancelled.',
    remedy: 'Start it again when you are ready.',
  });

/** One call with its name, its progress and its cancelling. The answer of a cancelled call is not waited for. */
export async function callWithSignal<Answer>(wire: CallWire<Answer>, options: CallOptions = {}): Promise<Answer> {
  const { signal, onProgress } = options;
  if (signal?.aborted) throw cancelled();
  const call = crypto.randomUUID();
  const stopListening = wire.onEvent((event) => {
    if (event.type === 'progress' && event.call === call) onProgress?.(event.progress);
  });
  let giveUp: (() => void) | undefined;
  const aborted = new Promise<never>((_, reject) => {
    giveUp = (): void => {
      wire.cancel(call);
      reject(cancelled());
    };
    signal?.addEventListener('abort', giveUp, { once: true });
  });
  try {
    return await Promise.race([wire.send(call), aborted]);
  } finally {
    stopListening();
    if (giveUp) signal?.removeEventListener('abort', giveUp);
  }
}
