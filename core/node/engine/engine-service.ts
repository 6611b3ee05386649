import { performance } from 'node:perf_hooks';
import type { MeasureProgress } from '../../contract/measure';
import type { EnginePorts } from '../../engine';
import { readPixelFile } from '../decode/decode-worker';
import type { FromEngine, Task, ToEngine } from './messages';
import { keepingLastPhotos } from './kept-photo';
import { errorOfSent, sentErrorOf } from './sent-error';
import { carryOut } from './tasks';

type Decoded = Awaited<ReturnType<EnginePorts['decodePhoto']>>;

/** The engine's side: does what its host sends, and asks the host for every photo. */
export class EngineService {
  private readonly waiting = new Map<number, { resolve: (photo: Decoded) => void; reject: (error: Error) => void }>();
  private asked = 0;

  constructor(private readonly send: (message: FromEngine) => void) {}

  private readonly ports: EnginePorts = {
    decodePhoto: keepingLastPhotos(
      (path, request) =>
        new Promise((resolve, reject) => {
          const id = ++this.asked;
          this.waiting.set(id, { resolve, reject });
          this.send({ type: 'decode', id, path, request });
        }),
    ),
    nowMs: () => performance.now(),
  };

  private async serve(task: Task): Promise<void> {
    const onProgress = (progress: MeasureProgress): void => this.send({ type: 'progress', progress });
    try {
      this.send({ type: 'result', result: await carryOut(task, this.ports, { onProgress }) });
    } catch (error) {
      this.send({ type: 'failed', error: sentErrorOf(error) });
    }
  }

  async receive(message: ToEngine): Promise<void> {
    if (message.type === 'task') return this.serve(message.task);
    const asker = this.waiting.get(message.id);
    this.waiting.delete(message.id);
    if (message.type === 'not-decoded') return asker?.reject(errorOfSent(message.error));
    try {
      const photo = await readPixelFile(message.pixels);
      asker?.resolve(photo);
    } catch (error) {
      asker?.reject(error instanceof Error ? error : new Error(String(error)));
    } finally {
      this.send({ type: 'taken', id: message.id });
    }
  }
}
