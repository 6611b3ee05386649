import { fork } from 'node:child_process';
import type { DecodeReply, DecodeRequest } from './messages';

/** A decoding process, as its parent sees it; each shell has its own kind. */
export interface DecodeChild {
  /** Undefined until it runs. */
  readonly pid: number | undefined;
  readonly hasEnded: boolean;
  send(request: DecodeRequest): void;
  /**
   * @param onEnd  exitCode null: it was ended from outside, by the system or by us
   * @returns a function that ends the listening
   */
  listen(
    onReply: (reply: DecodeReply) => void,
    onEnd: (exitCode: number | null) => void,
    onError: (error: Error) => void,
  ): () => void;
  /** Whether the program stays alive for it. */
  hold(isHeld: boolean): void;
  /** At once, whatever it is doing. */
  kill(): void;
}

/** Starts the decoding child as a Node process. */
export function forkDecodeChild(childFile: string, env: NodeJS.ProcessEnv): DecodeChild {
  const child = fork(childFile, [], {
    env,
    execArgv: [],
    stdio: ['ignore', 'ignore', 'ignore', 'ipc'],
  });
  return {
    get pid() {
      return child.pid;
    },
    get hasEnded() {
      return child.exitCode !== null || child.signalCode !== null;
    },
    // A child that has just ended cannot be sent to: its end is what is reported.
    send: (request) => void child.send(request, () => undefined),
    listen(onReply, onEnd, onError) {
      child.on('message', onReply).on('exit', onEnd).on('error', onError);
      return () => void child.off('message', onReply).off('exit', onEnd).off('error', onError);
    },
    hold(isHeld) {
      for (const one of [child, child.channel]) {
        if (isHeld) one?.ref();
        else one?.unref();
      }
    },
    kill: () => void child.kill('SIGKILL'),
  };
}
