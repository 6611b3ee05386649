import { utilityProcess, type UtilityProcess } from 'electron';
import path from 'node:path';
import type { DecodeChild } from '../core/node/decode/decode-child-process';
import type { DecodeReply } from '../core/node/decode/messages';
import type { EngineChild, FromEngine } from '../core/node/engine/messages';

/**
 * On Linux the decoder's native build clashes with the GLib of the window's own runtime: its WebAssembly build gives the
 * same pixels. Elsewhere the native one is used.
 */
const decoderEnv = process.platform === 'linux' ? { EVENDIAL_DECODER: 'wasm' } : {};

function fork(file: string, name: string, env: NodeJS.ProcessEnv): UtilityProcess {
  const given = Object.entries({ ...env, ...decoderEnv }).filter(([, value]) => value !== undefined);
  return utilityProcess.fork(file, [], {
    serviceName: name,
    env: Object.fromEntries(given) as Record<string, string>,
    execArgv: [],
    stdio: 'ignore',
  });
}

/** The hard way, also while it starts; its own `kill` asks politely and is not heard in the middle of a computation. */
function killAtOnce(child: UtilityProcess): void {
  const kill = (): void => {
    if (child.pid === undefined) return;
    try {
      process.kill(child.pid, 'SIGKILL');
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== 'ESRCH') throw error;
    }
  };
  if (child.pid === undefined) child.once('spawn', kill);
  else kill();
}

/** The engine in a helper process. */
export function startUtilityEngine(): EngineChild {
  const child = fork(path.join(__dirname, '..', 'engine.cjs'), 'Evendial engine', process.env);
  let ended: string | null = null;
  const gone = new Promise<void>((resolve) => {
    child.once('exit', (code) => {
      ended = `the engine's process ended with code ${code}`;
      resolve();
    });
  });
  return {
    send: (message) => child.postMessage(message),
    listen(onMessage, onEnd) {
      let isListening = true;
      const listener = (message: FromEngine): void => onMessage(message);
      child.on('message', listener);
      void gone.then(() => {
        if (isListening) onEnd(ended ?? '');
      });
      return () => {
        isListening = false;
        child.off('message', listener);
      };
    },
    async end() {
      killAtOnce(child);
      await gone;
    },
  };
}

/** The decoding child in a helper process: the shell cannot fork Node processes once it is packaged. */
export function startUtilityDecoder(childFile: string, env: NodeJS.ProcessEnv): DecodeChild {
  const child = fork(childFile, 'Evendial decoder', env);
  let hasEnded = false;
  child.once('exit', () => {
    hasEnded = true;
  });
  return {
    get pid() {
      return child.pid;
    },
    get hasEnded() {
      return hasEnded;
    },
    send: (request) => child.postMessage(request),
    listen(onReply, onEnd) {
      const reply = (message: DecodeReply): void => onReply(message);
      // The runtime gives one number for both: the child itself ends with 0 or 1, everything else came from outside.
      const end = (code: number): void => onEnd(code === 0 || code === 1 ? code : null);
      child.on('message', reply);
      child.on('exit', end);
      return () => {
        child.off('message', reply);
        child.off('exit', end);
      };
    },
    // Helper processes end with the window's program and never keep it alive.
    hold: () => undefined,
    kill: () => killAtOnce(child),
  };
}
