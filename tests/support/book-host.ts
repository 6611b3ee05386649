import type { BenchEvent, BenchVerb, BenchVerbs } from '../../core/contract/bench';
import { packValue, unpackValue } from '../../core/contract/packed';
import { createBenchHost, type BenchHost } from '../../core/node/bench/host';
import type { Book } from '../../core/node/book/book';
import { createDecoder } from '../../core/node/decode-process';
import { startThreadEngine } from '../../core/node/engine/thread-engine';

export interface BookHost {
  readonly host: BenchHost;
  readonly events: BenchEvent[];
  /** The answer as it comes out at the page. */
  ask<Verb extends BenchVerb>(
    verb: Verb,
    asks: BenchVerbs[Verb]['asks'],
    call?: string,
  ): Promise<BenchVerbs[Verb]['answers']>;
  close(): Promise<void>;
}

/** A bench with a book and no page. @param samplesFolder  none: a bench without samples */
export function startBookHost(book: Book, samplesFolder = 'no samples'): BookHost {
  const events: BenchEvent[] = [];
  const host = createBenchHost({
    shell: 'browser',
    version: '0',
    samplesFolder,
    book,
    startEngine: startThreadEngine,
    decoder: createDecoder({}),
  });
  host.onEvent((event) => events.push(event));
  let calls = 0;
  return {
    host,
    events,
    async ask(verb, asks, call = `call-${++calls}`) {
      const answer = await host.call(verb, call, asks);
      return unpackValue(packValue(answer)) as BenchVerbs[typeof verb]['answers'];
    },
    close: () => host.close(),
  };
}
