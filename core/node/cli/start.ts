import { spawn } from 'node:child_process';
import { firstLook } from '../bench/watch/watched-folder';
import { serveBench, type BenchFolders } from '../serve/serve';
import { readArguments, usageError } from './arguments';
import { readBookFolder } from './book-option';
import { readWatchFolder } from './watch-option';
import type { Shell } from './shell';
import { chooseStart, type StartChoice } from './start-choice';

const rules = { command: 'start', values: ['book', 'watch'], flags: [] };

/** A window that ends with an error this soon never opened. */
const openedAfterMs = 15_000;

/** @returns null when the window was used and closed, else why it did not open */
function openWindow(
  choice: Extract<StartChoice, { kind: 'window' }>,
  { book, watch }: BenchFolders,
  shell: Shell,
): Promise<string | null> {
  const started = performance.now();
  return new Promise((resolve) => {
    const watching = watch === null ? [] : [`--watch=${watch}`];
    // What the runtime says about graphics and buses on its way up is of no use to anyone.
    const window = spawn(choice.runtime, [...choice.flags, shell.home, `--book=${book}`, ...watching], {
      stdio: 'ignore',
    });
    const stop = (): void => void window.kill();
    shell.signal.addEventListener('abort', stop, { once: true });
    const finish = (why: string | null): void => {
      shell.signal.removeEventListener('abort', stop);
      resolve(why);
    };
    window.once('error', (error: NodeJS.ErrnoException) =>
      finish(`its runtime does not start (${error.code ?? 'unknown'})`),
    );
    window.once('exit', (code, signal) => {
      const failed = code !== 0 && !shell.signal.aborted && performance.now() - started < openedAfterMs;
      finish(failed ? `it ended at once (${signal ?? `code ${code}`})` : null);
    });
  });
}

/** `evendial start`, what `npm start` calls: the window where there can be one, else the bench in a browser. @rule BE11 */
export async function runStart(words: readonly string[], shell: Shell): Promise<number> {
  const given = readArguments(words, rules);
  if (given.files.length > 0) throw usageError(`start takes no ${JSON.stringify(given.files[0])}`, 'Add photos in it.');
  const folders = { book: readBookFolder(given, shell), watch: readWatchFolder(given, shell) };
  // Said here, where there is somebody to read it.
  if (folders.watch !== null) await firstLook(folders.watch);
  const { env, platform } = process;
  const choice = chooseStart({ env, platform, isRoot: process.getuid?.() === 0, home: shell.home });
  if (choice.kind === 'serve') {
    shell.tell(`${choice.reason[0].toUpperCase()}${choice.reason.slice(1)} The bench is served to a browser instead.`);
    return serveBench(0, folders, shell);
  }
  if (choice.reason !== null) shell.tell(choice.reason);
  const why = await openWindow(choice, folders, shell);
  if (why === null) return 0;
  shell.tell(`The window did not open: ${why}. The bench is served to a browser instead.`);
  return serveBench(0, folders, shell);
}
