import { randomBytes } from 'node:crypto';
import { existsSync } from 'node:fs';
import path from 'node:path';
import { createBenchHost } from '../bench/host';
import { Book } from '../book/book';
import { readArguments, usageError } from '../cli/arguments';
import { readBookFolder } from '../cli/book-option';
import { readWatchFolder } from '../cli/watch-option';
import { versionOf, type Shell } from '../cli/shell';
import { defaultPhotoLimits } from '../decode/photo-limits';
import { createDecoder } from '../decode-process';
import { startThreadEngine } from '../engine/thread-engine';
import { startBenchServer, type BenchServer, type BenchServerOptions } from './bench-server';
import { photoUpload, Uploads } from '../bench/uploads';

const rules = { command: 'serve', values: ['port', 'book', 'watch'], flags: [] };

function readPort(text: string | undefined): number {
  if (text === undefined) return 0;
  const port = Number(text);
  if (/^\d+$/.test(text) && port <= 65535) return port;
  throw usageError(`--port ${text} is no port`, 'Give a number from 1024 to 65535, or leave it out.');
}

async function listen(options: BenchServerOptions): Promise<BenchServer> {
  try {
    return await startBenchServer(options);
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    const taken = code === 'EADDRINUSE' ? 'is taken by another program' : 'may not be used';
    if (code !== 'EADDRINUSE' && code !== 'EACCES') throw error;
    throw usageError(`port ${options.port} ${taken}`, 'Name another, or leave --port out.', 'PORT_NOT_FREE');
  }
}

/** Resolves when the signal aborts. */
const until = (signal: AbortSignal): Promise<void> =>
  new Promise((resolve) => {
    if (signal.aborted) resolve();
    else signal.addEventListener('abort', () => resolve(), { once: true });
  });

/** The user's folders that the bench works with. */
export interface BenchFolders {
  /** Of the book. */
  readonly book: string;
  /** Whose new photos are laid on the bench; null: none. */
  readonly watch: string | null;
}

/** Serves the bench until the program is stopped. */
export async function serveBench(port: number, { book, watch }: BenchFolders, shell: Shell): Promise<number> {
  const pageFolder = path.join(shell.home, 'dist', 'renderer');
  if (!existsSync(path.join(pageFolder, 'index.html'))) {
    throw usageError('the bench has not been built', "Run 'npm run build' in the folder of Evendial.", 'PAGE_MISSING');
  }
  const uploads = new Uploads(photoUpload(defaultPhotoLimits.fileBytes));
  const onDefect = (error: unknown): void =>
    shell.tell(`a defect of the program: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}`);
  const host = createBenchHost({
    shell: 'browser',
    version: versionOf(shell.home),
    samplesFolder: path.join(shell.home, 'samples'),
    book: new Book(book),
    startEngine: startThreadEngine,
    decoder: createDecoder({}),
    onRemoved: (place) => void uploads.forget(place),
    onDefect,
  });
  const token = randomBytes(24).toString('base64url');
  try {
    const watched = watch === null ? null : await host.watchFolder(watch);
    const server = await listen({ host, uploads, pageFolder, token, port, onDefect });
    await shell.print(
      `The bench is at  http://127.0.0.1:${server.port}/#${token}\n` +
        'Open this address, whole, in a browser on this machine. Photos stay here. Ctrl-C ends it.\n' +
        (watched === null ? '' : `New photos in ${watched.folder} are measured as they arrive.\n`),
    );
    host.warmUp().catch(onDefect);
    await until(shell.signal);
    await server.close();
    return 0;
  } finally {
    await host.close();
    await uploads.close();
  }
}

/** `evendial serve`. @returns the exit code */
export async function runServe(words: readonly string[], shell: Shell): Promise<number> {
  const given = readArguments(words, rules);
  if (given.files.length > 0) {
    throw usageError(`serve takes no ${JSON.stringify(given.files[0])}`, 'Add photos on the page.');
  }
  const folders = { book: readBookFolder(given, shell), watch: readWatchFolder(given, shell) };
  return serveBench(readPort(given.values.get('port')), folders, shell);
}
