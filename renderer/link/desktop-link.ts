import type { BenchError, BenchEvent, BenchVerb } from '../../core/contract/bench';
import { CallFailed, type AddedFile, type BenchLink } from './bench-link';
import { callWithSignal } from './call-with-signal';

type Sent = { readonly answer: unknown } | { readonly error: BenchError };

/** What the window's preload offers. */
export type DesktopBench = {
  readonly [Verb in BenchVerb]: (call: string, asks: unknown) => Promise<Sent>;
} & {
  addPhoto(file: File): Promise<Sent>;
  onEvent(listener: (event: BenchEvent) => void): () => void;
};

function answerOf(sent: Sent): unknown {
  if ('error' in sent) throw new CallFailed(sent.error);
  return sent.answer;
}

/** The bench of the desktop window. */
export function createDesktopLink(bench: DesktopBench): BenchLink {
  const onEvent = (listener: (event: BenchEvent) => void): (() => void) => bench.onEvent(listener);

  async function addPhoto(file: File): Promise<AddedFile> {
    const sent = await bench.addPhoto(file);
    return 'error' in sent ? { ...sent.error, name: file.name } : (sent.answer as AddedFile);
  }

  return {
    async call(verb, asks, options) {
      const wire = {
        send: async (call: string) => answerOf(await bench[verb](call, asks)),
        cancel: (call: string) => void bench.cancel(crypto.randomUUID(), { call }),
        onEvent,
      };
      return (await callWithSignal(wire, options)) as never;
    },
    async addPhotos(files) {
      const added: AddedFile[] = [];
      for (const file of files) added.push(await addPhoto(file));
      return added;
    },
    onEvent,
  };
}
