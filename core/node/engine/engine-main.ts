// The engine's own thread or process: does the tasks of its host, one at a time.
import { parentPort } from 'node:worker_threads';
import { EngineService } from './engine-service';
import type { FromEngine, ToEngine } from './messages';

/** What the desktop shell's helper processes have in place of a thread's port. */
interface ProcessPort {
  on(event: 'message', listener: (event: { readonly data: ToEngine }) => void): void;
  postMessage(message: FromEngine): void;
}

const { parentPort: processPort } = process as unknown as { readonly parentPort?: ProcessPort };
if (parentPort !== null) {
  const port = parentPort;
  const service = new EngineService((message) => port.postMessage(message));
  port.on('message', (message: ToEngine) => void service.receive(message));
} else if (processPort) {
  const service = new EngineService((message) => processPort.postMessage(message));
  processPort.on('message', ({ data }) => void service.receive(data));
} else {
  throw new Error('the engine has no host: it is started as a thread or a helper process');
}
