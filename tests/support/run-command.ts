import { AppError } from '../../core/base/errors';
import { exitCodeOf } from '../../core/node/cli/exit-codes';
import type { Shell } from '../../core/node/cli/shell';
import { createTaskEngine } from '../../core/node/engine/thread-engine';

/** What a command did: as the command line would return and print it. */
export interface CommandEnd {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

/** Warm from one command to the next, for which a new one would need two seconds; it ends with the test worker. */
const { runTask } = createTaskEngine();

/** Runs a command in this process, with relative paths in `folder`; a start of the program takes a second each. */
export async function runCommand(
  command: (words: readonly string[], shell: Shell) => Promise<number>,
  words: readonly string[],
  folder: string,
): Promise<CommandEnd> {
  let [out, err] = ['', ''];
  const shell: Shell = {
    folder,
    home: process.cwd(),
    signal: new AbortController().signal,
    runTask,
    print: async (text) => void (out += text),
    tell: (text) => void (err += `${text}\n`),
    progress: () => undefined,
  };
  try {
    return { code: await command(words, shell), out, err };
  } catch (error) {
    if (!(error instanceof AppError)) throw error;
    return { code: exitCodeOf[error.kind], out, err: `${err}${error.message}\n  ${error.remedy}` };
  }
}
